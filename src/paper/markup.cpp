#include "paper/markup.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "quantity/base64.h"
#include "quantity/visible_text.h"

namespace paper {
namespace {

constexpr utf8proc_int32_t kReplacement = 0xFFFD;

bool is_allowed(utf8proc_int32_t point) {
  return point == '\t' || point == '\n' || !quantity::is_hidden(static_cast<char32_t>(point));
}

// Calls `use` with every code point; what is broken comes as the replacement.
template <class Use>
void each_point(std::string_view text, Use use) {
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  auto left = static_cast<utf8proc_ssize_t>(text.size());
  while (left > 0) {
    utf8proc_int32_t point = 0;
    utf8proc_ssize_t used = utf8proc_iterate(bytes, left, &point);
    if (used <= 0) {
      used = 1;
      point = kReplacement;
    }
    use(point);
    bytes += used;
    left -= used;
  }
}

void append(std::string& text, utf8proc_int32_t point) {
  utf8proc_uint8_t bytes[4];
  const auto size = utf8proc_encode_char(point, bytes);
  text.append(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

// With the replacement for whatever no page may hold.
std::string cleaned(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  each_point(text, [&](utf8proc_int32_t point) {
    append(result, is_allowed(point) ? point : kReplacement);
  });
  return result;
}

std::string with_references(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  each_point(text, [&](utf8proc_int32_t point) {
    switch (point) {
      case '&':
        result += "&amp;";
        break;
      case '<':
        result += "&lt;";
        break;
      case '>':
        result += "&gt;";
        break;
      case '"':
        result += "&quot;";
        break;
      case '\'':
        result += "&#39;";
        break;
      default:
        append(result, point);
    }
  });
  return result;
}

// Of signs alone that may stand anywhere on a page and run from left to right: nearly every text.
bool stands_as_it_is(std::string_view text) {
  return std::ranges::all_of(text, [](char c) {
    return c >= ' ' && c <= '~' && std::string_view("&<>\"'").find(c) == std::string_view::npos;
  });
}

}  // namespace

std::string escaped(std::string_view text) {
  return stands_as_it_is(text) ? std::string(text) : with_references(cleaned(text));
}

std::string isolated(std::string_view text) {
  constexpr std::string_view kFirstIsolate = "\u2068";  // first strong isolate
  constexpr std::string_view kEnd = "\u2069";           // pop directional isolate
  std::string result;
  std::size_t taken = 0;
  std::size_t begin = 0;  // of a part from right to left
  std::size_t end = 0;    // after its last letter; where it is taken, there is no such part
  const auto take_part = [&] {
    if (end <= taken) return;
    result += text.substr(taken, begin - taken);
    result += kFirstIsolate;
    result += text.substr(begin, end - begin);
    result += kEnd;
    taken = end;
  };
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  for (std::size_t at = 0; at < text.size();) {
    utf8proc_int32_t point = 0;
    const auto used =
        utf8proc_iterate(bytes + at, static_cast<utf8proc_ssize_t>(text.size() - at), &point);
    const auto next = at + static_cast<std::size_t>(used > 0 ? used : 1);
    const auto direction = used > 0 ? utf8proc_get_property(point)->bidi_class : 0;
    if (direction == UTF8PROC_BIDI_CLASS_R || direction == UTF8PROC_BIDI_CLASS_AL) {
      if (end <= taken) begin = at;
      end = next;
    } else if (direction == UTF8PROC_BIDI_CLASS_L || direction == UTF8PROC_BIDI_CLASS_B) {
      take_part();
    }
    at = next;
  }
  take_part();
  result += text.substr(taken);
  return result;
}

std::string style_string(std::string_view text) {
  std::string result = "\"";
  each_point(isolated(cleaned(text)), [&](utf8proc_int32_t point) {
    const bool plain = (point >= '0' && point <= '9') || (point >= 'A' && point <= 'Z') ||
                       (point >= 'a' && point <= 'z') || point == ' ' || point >= 0xA0;
    if (plain) {
      append(result, point);
    } else {
      result += fmt::format("\\{:X} ", point);
    }
  });
  return result + '"';
}

void Markup::start(Name element, Attributes attributes) {
  written_ += '<';
  written_ += element.text();
  for (const auto& [name, value] : attributes) {
    written_ += ' ';
    written_ += name.text();
    written_ += "=\"";
    written_ += escaped(value);
    written_ += '"';
  }
}

Markup& Markup::open(Name element, Attributes attributes) {
  start(element, attributes);
  written_ += '>';
  open_.push_back(element.text());
  return *this;
}

Markup& Markup::close() {
  assert(!open_.empty());
  written_ += fmt::format("</{}>\n", open_.back());
  open_.pop_back();
  return *this;
}

Markup& Markup::element(Name element, Attributes attributes, std::string_view text) {
  return open(element, attributes).text(text).close();
}

Markup& Markup::words(Name element, std::string_view text) {
  open(element).text(text).close();
  written_.pop_back();
  return *this;
}

Markup& Markup::empty(Name element, Attributes attributes) {
  start(element, attributes);
  written_ += "/>\n";
  return *this;
}

Markup& Markup::picture(std::string_view type, std::string_view bytes, std::string_view instead) {
  written_ += fmt::format("<img src=\"data:{};base64,", escaped(type));
  written_ += quantity::write_base64(bytes);
  written_ += fmt::format("\" alt=\"{}\"/>\n", escaped(instead));
  return *this;
}

Markup& Markup::text(std::string_view text) {
  if (stands_as_it_is(text)) {
    written_ += text;
  } else {
    written_ += with_references(isolated(cleaned(text)));
  }
  return *this;
}

Markup& Markup::style(std::string_view rules) {
  written_ += "<style>\n";
  written_ += rules;
  written_ += "</style>\n";
  return *this;
}

std::string Markup::take_so_far() { return std::exchange(written_, {}); }

std::string Markup::take() {
  assert(open_.empty());
  return std::move(written_);
}

}  // namespace paper
