#include "screen/table.h"

#include "support/catch.h"
#include "support/property.h"
#include "words/text.h"

namespace table_test {

TEST_CASE("columns line up by what a terminal shows, not by bytes", "[screen]") {
  // Widths after Unicode Standard Annex 11 (from memory): the middle dot takes one column, a CJK
  // ideograph two, a combining accent none.
  CHECK(words::display_width("N·m") == 3);
  CHECK(words::display_width("齿轮") == 4);
  CHECK(words::display_width("e\u0301") == 1);
  screen::Table table;
  table.column("unit");
  table.column("value", screen::Table::Align::Right);
  table.row({"N·m", "80"});
  table.row({"in·lbf", "708.1"});
  CHECK(table.text("") ==
        "unit    value\n"
        "N·m        80\n"
        "in·lbf  708.1\n");
}

TEST_CASE("a text that is too long is cut at a character and never too wide", "[screen]") {
  CHECK(words::shortened("gear on its hub", 15) == "gear on its hub");
  CHECK(words::shortened("gear on its hub", 10) == "gear on i…");
  CHECK(words::shortened("齿轮箱", 5) == "齿轮…");
  CHECK(words::shortened("Öl über alles", 3) == "Öl…");
}

TEST_CASE("a line is broken at blanks and keeps every word", "[screen]") {
  CHECK(words::wrapped("one two three", 8, "", "  ") == "one two\n  three\n");
  CHECK(words::wrapped("unbreakable", 4, "> ", "  ") == "> unbreakable\n");
  holds_always("no line is wider than the page, unless one word is", [] {
    const auto words =
        *rc::gen::nonEmpty<std::vector<std::string>>(rc::gen::container<std::vector<std::string>>(
            rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('a', 'z')))));
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : " ") + word.substr(0, 20);
    const auto width = *rc::gen::inRange<std::size_t>(24, 100);
    const auto wrapped = words::wrapped(text, width, "- ", "  ");
    std::string joined;
    std::istringstream lines(wrapped);
    for (std::string line; std::getline(lines, line);) {
      RC_ASSERT(words::display_width(line) <= width);
      joined += (joined.empty() ? "" : " ") + line.substr(2);
    }
    RC_ASSERT(joined == text);
  });
}

TEST_CASE("a table that is too wide for the page becomes sentences", "[screen]") {
  screen::Table table;
  table.column("position");
  table.column("N·m", screen::Table::Align::Right);
  table.row({"J06/03", "80"});
  table.row({"J06/04", "7.5"});
  CHECK(table.fitted("  ", 15) == table.text("  "));  // as wide as its heading
  CHECK(table.fitted("  ", 14) ==
        "  position\n    J06/03;\n    N·m 80\n  position\n    J06/04;\n    N·m 7.5\n");
  CHECK(screen::Table().fitted("", 1) == screen::Table().text(""));
}

TEST_CASE("emphasis is a choice of the page", "[screen]") {
  CHECK(words::strong("hold", {80, false}) == "hold");
  CHECK(words::strong("hold", {80, true}) == "\x1b[1mhold\x1b[0m");
}

}  // namespace table_test
