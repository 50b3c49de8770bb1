// The manual's tables of rules and codes are written from these themselves.

#include <fmt/format.h>

#include <cstdlib>
#include <fstream>

#include "audit/audit.h"
#include "failure/exit_meaning.h"
#include "finding/grade.h"
#include "record/pass_rule.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"

namespace rule_tables_test {

namespace {

const std::string kPages = BOLTWITNESS_MANUAL;

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

std::string rounds_of(const record::PassRule& rule) {
  std::string rounds;
  for (const auto& round : rule.rounds) {
    const double least = round.least.in_percent();
    const double most = round.most.in_percent();
    rounds += rounds.empty() ? "" : ", ";
    rounds += least == most  ? fmt::format("{:.0f} %", most)
              : least == 0.0 ? fmt::format("up to {:.0f} %", most)
                             : fmt::format("{:.0f} to {:.0f} %", least, most);
  }
  switch (rule.check) {
    case record::CheckRound::None:
      return rounds;
    case record::CheckRound::CountingOrder:
      return rounds + ", once round";
    case record::CheckRound::CountingOrderUntilStill:
    case record::CheckRound::PatternUntilStill:
      return rounds + ", round until nothing turns";
  }
  return rounds;
}

std::string pass_table() {
  std::string table = "| rule | stated for | rounds | source | known |\n|---|---|---|---|---|\n";
  for (const auto& rule : record::pass_rules()) {
    table += fmt::format("| `{}` | {} | {} | {} | {} |\n", rule.name, rule.use, rounds_of(rule),
                         rule.source, rule.how_known == "seen" ? "seen" : "from memory");
  }
  return table;
}

std::string exit_code_table() {
  std::string table = "| code | means |\n|---|---|\n";
  for (const auto& [code, means] : failure::kExitMeanings) {
    table += fmt::format("| {} | {} |\n", static_cast<int>(code), means);
  }
  return table;
}

// The page with this table between the marks of `name`; BOLTWITNESS_REGENERATE writes it.
void check_table(const std::string& page, const std::string& name, const std::string& table) {
  const std::string path = kPages + "/" + page + ".md";
  const std::string text = content_of(path);
  const std::string begin = fmt::format("<!-- {} -->\n", name);
  const std::string end = fmt::format("<!-- end of {} -->\n", name);
  const auto from = text.find(begin);
  const auto to = text.find(end);
  REQUIRE(from != std::string::npos);
  REQUIRE(to != std::string::npos);
  const std::string fresh =
      text.substr(0, from + begin.size()) + "\n" + table + "\n" + text.substr(to);
  if (std::getenv("BOLTWITNESS_REGENERATE") != nullptr) std::ofstream(path) << fresh;
  INFO("scripts/regenerate_golden writes the table anew");
  CHECK(content_of(path) == fresh);
}

}  // namespace

TEST_CASE("the manual lists every grade rule", "[manual]") {
  check_table("evidence", "grade rules", grade_table());
}

TEST_CASE("the manual lists every audit rule", "[manual]") {
  check_table("audit-rules", "audit rules", audit_table());
}

TEST_CASE("the manual lists every exit code", "[manual]") {
  check_table("scripts", "exit codes", exit_code_table());
}

TEST_CASE("the manual lists every pass rule", "[manual]") {
  check_table("passes", "pass rules", pass_table());
}

}  // namespace rule_tables_test
