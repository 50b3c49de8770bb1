// The README's tables of rules are written from the rules themselves.

#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "audit/audit.h"
#include "finding/grade.h"
#include "support/catch.h"

namespace {

const std::string kReadme = BOLTWITNESS_README;

std::string text_of_readme() {
  std::ifstream file(kReadme);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string grade_table() {
  std::string table = "| at most | where | better evidence |\n|---|---|---|\n";
  for (const auto& rule : finding::grade_rules()) {
    table +=
        fmt::format("| {} | {} | {} |\n", finding::letter_of(rule.at_most), rule.why, rule.better);
  }
  return table;
}

std::string audit_table() {
  std::string table = "| rule | looks at |\n|---|---|\n";
  for (const auto& rule : audit::rules()) {
    table += fmt::format("| {} | {} |\n", rule.name, rule.looks_at);
  }
  return table;
}

// The README with this table between the marks of `name`; BOLTWITNESS_REGENERATE writes it.
void check_table(const std::string& name, const std::string& table) {
  const std::string text = text_of_readme();
  const std::string begin = fmt::format("<!-- {} -->\n", name);
  const std::string end = fmt::format("<!-- end of {} -->\n", name);
  const auto from = text.find(begin);
  const auto to = text.find(end);
  REQUIRE(from != std::string::npos);
  REQUIRE(to != std::string::npos);
  const std::string fresh =
      text.substr(0, from + begin.size()) + "\n" + table + "\n" + text.substr(to);
  if (std::getenv("BOLTWITNESS_REGENERATE") != nullptr) std::ofstream(kReadme) << fresh;
  INFO("scripts/regenerate_golden writes the table anew");
  CHECK(text_of_readme() == fresh);
}

}  // namespace

TEST_CASE("the README lists every grade rule", "[report]") {
  check_table("grade rules", grade_table());
}

TEST_CASE("the README lists every audit rule", "[report]") {
  check_table("audit rules", audit_table());
}
