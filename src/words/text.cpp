#include "words/text.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>

#include "quantity/ascii.h"
#include "words/emphasis.h"
#include "words/given_width.h"

namespace words {
namespace {

// How many bytes of emphasis the text begins with.
std::size_t emphasis_at_front(std::string_view text) {
  for (const auto each : {kStrongBegins, kStrongEnds}) {
    if (text.starts_with(each)) return each.size();
  }
  return 0;
}

}  // namespace

std::size_t display_width(std::string_view text) {
  // Most texts are such, of which each character is one wide.
  if (std::ranges::all_of(text, quantity::is_plain)) return text.size();
  std::size_t width = 0;
  while (!text.empty()) {
    if (const auto unseen = emphasis_at_front(text); unseen > 0) {
      text.remove_prefix(unseen);
      continue;
    }
    utf8proc_int32_t point = 0;
    const auto used = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                       static_cast<utf8proc_ssize_t>(text.size()), &point);
    // A broken byte shows as one replacement character.
    width += used > 0 ? static_cast<std::size_t>(std::max(0, utf8proc_charwidth(point))) : 1;
    text.remove_prefix(used > 0 ? static_cast<std::size_t>(used) : 1);
  }
  return width;
}

std::string padded_right(std::string_view text, std::size_t width) {
  const std::size_t taken = display_width(text);
  return std::string(text) + std::string(width > taken ? width - taken : 0, ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
  const std::size_t taken = display_width(text);
  return std::string(width > taken ? width - taken : 0, ' ') + std::string(text);
}

std::string shortened(std::string_view text, std::size_t width) {
  if (display_width(text) <= width) return std::string(text);
  // A character begins where a byte is no continuation of one.
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
  std::size_t end = text.size();
  while (end > 0 && (end == text.size() || !begins(text[end]) ||
                     display_width(text.substr(0, end)) + 1 > width))
    --end;
  return std::string(text.substr(0, end)) + "…";
}

// Past this the eye loses its line.
constexpr std::size_t kWidestProse = 100;

std::string wrapped(std::string_view text, std::size_t width, std::string_view first,
                    std::string_view next) {
  width = std::min(width, kWidestProse);
  std::string result;
  std::string line(first);
  bool line_is_empty = true;
  while (!text.empty()) {
    const auto blank = text.find(' ');
    const std::string_view word = text.substr(0, blank);
    text.remove_prefix(blank == std::string_view::npos ? text.size() : blank + 1);
    if (word.empty()) continue;
    const auto before = line.size();
    if (!line_is_empty) line += ' ';
    line += word;
    if (!line_is_empty && given_width(line) > width) {
      result.append(line, 0, before) += '\n';
      line = next;
      line += word;
    }
    line_is_empty = false;
  }
  return result + line + '\n';
}

std::string strong(std::string_view text, const Page& page) {
  return page.bold ? fmt::format("{}{}{}", kStrongBegins, text, kStrongEnds) : std::string(text);
}

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace words
