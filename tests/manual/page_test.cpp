#include "manual/page.h"

#include <algorithm>
#include <set>
#include <sstream>

#include "support/catch.h"

namespace page_test {

namespace {

std::vector<std::string> lines_of(const manual::Page& page) {
  std::istringstream text{std::string(page.text)};
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) lines.push_back(line);
  return lines;
}

const manual::Page& page_named(std::string_view name) {
  const auto page = std::ranges::find(manual::pages(), name, &manual::Page::name);
  REQUIRE(page != manual::pages().end());
  return *page;
}

}  // namespace

TEST_CASE("every page of the manual begins with what it is about", "[manual]") {
  for (const auto& page : manual::pages()) {
    INFO(page.name);
    CHECK(page.text.starts_with("# "));
    CHECK(manual::title_of(page).size() > 10);
    CHECK(page.text.ends_with("\n"));
  }
}

TEST_CASE("what is set as it was typed fits a terminal of 60 columns, indented by two",
          "[manual]") {
  for (const auto& page : manual::pages()) {
    bool typed = false;
    bool goes_on = false;
    for (const auto& line : lines_of(page)) {
      if (line.starts_with("```")) typed = !typed;
      // Whoever lays the page out folds commands, and what they go on with.
      const bool is_folded = line.starts_with("boltwitness ") || goes_on;
      goes_on = is_folded && line.ends_with('\\');
      if (!typed || is_folded) continue;
      INFO(page.name << ": " << line);
      // Every character of the pages takes one column.
      CHECK(std::ranges::count_if(line, [](char c) { return (c & 0xC0) != 0x80; }) <= 58);
    }
  }
}

TEST_CASE("a page of the manual keeps to the marks that are laid out", "[manual]") {
  for (const auto& page : manual::pages()) {
    bool typed = false;
    for (const auto& line : lines_of(page)) {
      INFO(page.name << ": " << line);
      // No second level of a list, no link.
      if (line.starts_with("```")) typed = !typed;
      if (typed) continue;
      CHECK_FALSE(line.starts_with(" "));
      CHECK(line.find("](") == std::string::npos);
      const auto strong = [&] {
        std::size_t marks = 0;
        for (auto at = line.find("**"); at != std::string::npos; at = line.find("**", at + 2)) {
          ++marks;
        }
        return marks;
      };
      CHECK(strong() % 2 == 0);
    }
  }
}

TEST_CASE("the glossary explains each word once", "[manual]") {
  std::set<std::string> seen;
  for (const auto& line : lines_of(page_named("words"))) {
    if (!line.starts_with("- **")) continue;
    const auto word = line.substr(4, line.find("**", 4) - 4);
    INFO(word);
    CHECK(seen.insert(word).second);
    CHECK(line.size() > word.size() + 30);
  }
  // What every answer uses must be in it.
  for (const auto* word : {"joint", "position", "specification", "witness mark", "setting",
                           "found torque", "evidence grade", "verdict", "deviation", "pass",
                           "live load", "critical", "item", "fluid"}) {
    INFO(word);
    CHECK(seen.contains(word));
  }
}

}  // namespace page_test
