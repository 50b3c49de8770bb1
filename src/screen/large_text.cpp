#include "screen/large_text.h"

#include <array>

#include "quantity/ascii.h"

namespace screen {
namespace {

constexpr std::size_t kRows = 5;
using Glyph = std::array<std::string_view, kRows>;

constexpr std::array<Glyph, 10> kDigits = {{
    {" ### ", "#   #", "#   #", "#   #", " ### "},
    {"  #  ", " ##  ", "  #  ", "  #  ", " ### "},
    {"#### ", "    #", " ### ", "#    ", "#####"},
    {"#### ", "    #", "  ## ", "    #", "#### "},
    {"#  # ", "#  # ", "#####", "   # ", "   # "},
    {"#####", "#    ", "#### ", "    #", "#### "},
    {" ### ", "#    ", "#### ", "#   #", " ### "},
    {"#####", "   # ", "  #  ", " #   ", " #   "},
    {" ### ", "#   #", " ### ", "#   #", " ### "},
    {" ### ", "#   #", " ####", "    #", " ### "},
}};

}  // namespace

std::string large_digits(std::string_view digits, std::string_view indent) {
  std::string text;
  for (std::size_t row = 0; row < kRows; ++row) {
    std::string line(indent);
    for (const char c : digits) {
      if (!quantity::is_digit(c)) continue;
      line += kDigits[static_cast<std::size_t>(c - '0')][row];
      line += "  ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + '\n';
  }
  return text;
}

}  // namespace screen
