#include "terminal/inert_stream.h"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "quantity/visible_text.h"

namespace terminal {
namespace {

constexpr std::string_view kSaid[] = {"\x1b[1m", "\x1b[0m", kStartOverLine};

// What of these the text begins with; empty for none.
std::string_view said_at_front(std::string_view text) {
  const auto* said =
      std::ranges::find_if(kSaid, [&](std::string_view each) { return text.starts_with(each); });
  return said == std::end(kSaid) ? std::string_view() : *said;
}

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

bool InertBuffer::give(bool is_end) {
  std::string_view rest = waiting_;
  std::string shown;
  while (!rest.empty()) {
    if (const auto said = said_at_front(rest); !said.empty()) {
      shown += said;
      rest.remove_prefix(said.size());
    } else if (!is_end && is_beginning(rest)) {
      break;
    } else {
      const auto character = quantity::first_character(rest);
      shown += locale_.put(quantity::visible_lines(character.bytes));
      rest.remove_prefix(character.bytes.size());
    }
  }
  sink_ << shown;
  waiting_.erase(0, waiting_.size() - rest.size());
  return static_cast<bool>(sink_);
}

std::streamsize InertBuffer::xsputn(const char* text, std::streamsize size) {
  waiting_.append(text, static_cast<std::size_t>(size));
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
