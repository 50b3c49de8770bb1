#include "terminal/inert_stream.h"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "quantity/ascii.h"
#include "quantity/visible_text.h"
#include "words/emphasis.h"

namespace terminal {
namespace {

constexpr std::string_view kSaid[] = {words::kStrongBegins, words::kStrongEnds, kStartOverLine};

// What of these the text begins with; empty for none.
std::string_view said_at_front(std::string_view text) {
  const auto* said =
      std::ranges::find_if(kSaid, [&](std::string_view each) { return text.starts_with(each); });
  return said == std::end(kSaid) ? std::string_view() : *said;
}

bool acts_on_nothing(char c) { return quantity::is_plain(c) || c == '\n' || c == '\t'; }

// More may follow that makes one of these, or a whole character, of it.
bool is_beginning(std::string_view text) {
  if (std::ranges::any_of(kSaid, [&](std::string_view each) { return each.starts_with(text); })) {
    return true;
  }
  constexpr std::size_t kLongestCharacter = 4;
  return text.size() < kLongestCharacter && static_cast<unsigned char>(text.front()) >= 0xC2 &&
         quantity::first_character(text).is_broken;
}

}  // namespace

InertBuffer::~InertBuffer() { (void)give(true); }

std::string_view InertBuffer::given(std::string_view text, bool is_end) {
  constexpr std::size_t kPutOutAtOnce = std::size_t{1} << 16;
  std::string shown;
  while (!text.empty()) {
    // Nearly all of it acts on nothing and begins nothing.
    const auto plain =
        static_cast<std::size_t>(std::ranges::find_if_not(text, acts_on_nothing) - text.begin());
    if (plain >= kPutOutAtOnce) {
      sink_ << shown << text.substr(0, plain);
      shown.clear();
    } else {
      shown += text.substr(0, plain);
    }
    text.remove_prefix(plain);
    if (text.empty()) break;
    if (const auto said = said_at_front(text); !said.empty()) {
      shown += said;
      text.remove_prefix(said.size());
    } else if (!is_end && is_beginning(text)) {
      break;
    } else {
      const auto character = quantity::first_character(text);
      shown += locale_.put(quantity::visible_lines(character.bytes));
      text.remove_prefix(character.bytes.size());
    }
    if (shown.size() >= kPutOutAtOnce) {
      sink_ << shown;
      shown.clear();
    }
  }
  sink_ << shown;
  return text;
}

bool InertBuffer::give(bool is_end) {
  waiting_.erase(0, waiting_.size() - given(waiting_, is_end).size());
  return static_cast<bool>(sink_);
}

std::streamsize InertBuffer::xsputn(const char* text, std::streamsize size) {
  const std::string_view all(text, static_cast<std::size_t>(size));
  if (waiting_.empty()) {
    waiting_ = given(all, false);
    return sink_ ? size : 0;
  }
  waiting_ += all;
  return give(false) ? size : 0;
}

InertBuffer::int_type InertBuffer::overflow(int_type character) {
  if (traits_type::eq_int_type(character, traits_type::eof()))
    return traits_type::not_eof(character);
  waiting_ += traits_type::to_char_type(character);
  return give(false) ? character : traits_type::eof();
}

int InertBuffer::sync() {
  const bool given = give(true);
  sink_.flush();
  return given && sink_ ? 0 : -1;
}

}  // namespace terminal
