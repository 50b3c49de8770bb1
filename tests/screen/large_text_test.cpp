#include "screen/large_text.h"

#include <algorithm>
#include <set>

#include "support/catch.h"
#include "words/text.h"

namespace large_text_test {

using screen::large_figures;
using screen::LargeLetters;

TEST_CASE("without large letters the figures stand in a line each", "[screen]") {
  CHECK(large_figures({{"position", "12", ""}, {"TW2 set to", "8.5", "N·m"}}, LargeLetters::None,
                      80) == "  position 12\n  TW2 set to 8.5 N·m\n");
}

TEST_CASE("large digits are drawn with block elements, or with strokes of plain letters",
          "[screen]") {
  CHECK(large_figures({{"position", "14", ""}}, LargeLetters::Blocks, 80) ==
        "  position\n"
        "      ██  ██  ██\n"
        "      ██  ██  ██\n"
        "      ██  ▀▀▀▀██\n"
        "      ██      ██\n"
        "      ▀▀      ▀▀\n");
  CHECK(large_figures({{"", "28.5", "N·m"}}, LargeLetters::Ascii, 80) ==
        "  \n"
        "   ___    ___       ___\n"
        "      |  |   |     |\n"
        "   ___|  |___|     |___\n"
        "  |      |   |         |\n"
        "  |___   |___|  .   ___| N·m\n");
}

TEST_CASE("no two digits look alike, and none is drawn with a number sign", "[screen]") {
  for (const auto letters : {LargeLetters::Ascii, LargeLetters::Blocks}) {
    std::set<std::string> seen;
    for (const char digit : std::string("0123456789")) {
      const auto drawn = large_figures({{"", {digit}, ""}}, letters, 80);
      CHECK(drawn.find('#') == std::string::npos);
      seen.insert(drawn);
    }
    CHECK(seen.size() == 10);
  }
}

TEST_CASE("large figures stand below one another where the width does not take both", "[screen]") {
  const std::vector<screen::LargeFigure> figures = {{"position", "128", ""},
                                                    {"TW2 set to", "127.5", "in·lbf"}};
  const auto lines = [&](std::size_t width) {
    const auto text = large_figures(figures, LargeLetters::Blocks, width);
    for (std::size_t at = 0; at < text.size();) {
      const auto end = text.find('\n', at);
      CHECK(words::display_width(text.substr(at, end - at)) <= width);
      at = end + 1;
    }
    return std::ranges::count(text, '\n');
  };
  CHECK(lines(80) == 6);
  CHECK(lines(60) == 12);
}

}  // namespace large_text_test
