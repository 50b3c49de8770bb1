#include "record/pass_rule.h"

#include <map>
#include <set>
#include <sstream>
#include <string>

#include "failure/failure.h"
#include "support/catch.h"
#include "support/check_values.h"

namespace pass_rule_test {

using record::CheckRound;

namespace {

// The parts of a printed schedule, "20 % | 40 % | 100 %".
std::vector<std::string> parts_of(const std::string& passes) {
  std::vector<std::string> parts;
  std::string rest = passes;
  for (auto bar = rest.find(" | "); bar != std::string::npos; bar = rest.find(" | ")) {
    parts.push_back(rest.substr(0, bar));
    rest.erase(0, bar + 3);
  }
  parts.push_back(rest);
  return parts;
}

bool is_round_at_a_share(const std::string& part) {
  for (const auto* other : {"of target", "rotational", "circumferential", "around", "repeat"}) {
    if (part.find(other) != std::string::npos) return false;
  }
  return part.find('%') != std::string::npos;
}

struct PrintedShare {
  double least;
  double most;
};

// Reads "20 %", "20 to 30 %" or "up to 30 %"; the words before and behind are skipped.
PrintedShare share_in(const std::string& part) {
  std::istringstream words(part.substr(0, part.find('%')));
  std::vector<std::string> read;
  for (std::string word; words >> word;) read.push_back(word);
  const double most = std::stod(read.back());
  if (read.size() < 3 || read[read.size() - 2] != "to") return {most, most};
  const auto& before = read[read.size() - 3];
  return {before == "up" ? 0.0 : std::stod(before), most};
}

const CheckRow& row_with(const std::vector<CheckRow>& rows, const std::string& id) {
  for (const auto& row : rows) {
    if (row.at("id") == id) return row;
  }
  throw std::runtime_error("no row " + id);
}

}  // namespace

TEST_CASE("the rounds of every flange rule are those that its source prints", "[record]") {
  // Source: sequences.csv Q021 (memory) and Q023 to Q029 (seen).
  const std::map<std::string, std::string> rule_of_row = {
      {"Q021", "legacy-flange-rounds"},
      {"Q023", "three-rounds"},
      {"Q024", "flange-rounds-until-still"},
      {"Q025", "flange-rounds"},
      {"Q026", "flange-rounds-few"},
      {"Q027", "flange-rounds-many"},
      {"Q028", "five-rounds"},
      {"Q029", "lined-pipe-rounds"},
  };
  const auto rows = read_check_values("sequences.csv");
  for (const auto& [id, name] : rule_of_row) {
    INFO(id << " " << name);
    const auto& row = row_with(rows, id);
    const auto& rule = record::pass_rule_named(name);
    CHECK(rule.how_known == row.at("how_known"));
    std::size_t round = 0;
    bool has_check = false;
    for (const auto& part : parts_of(row.at("passes"))) {
      has_check = has_check || part.find("rotational") != std::string::npos ||
                  part.find("around") != std::string::npos ||
                  part.find("circumferential") != std::string::npos ||
                  part.find("until no nut turns") != std::string::npos;
      if (!is_round_at_a_share(part)) continue;
      REQUIRE(round < rule.rounds.size());
      const auto printed = share_in(part);
      CHECK(rule.rounds[round].least.in_percent() == printed.least);
      CHECK(rule.rounds[round].most.in_percent() == printed.most);
      CHECK(rule.rounds[round].in_counting_order ==
            (part.find("once clockwise") != std::string::npos));
      ++round;
    }
    CHECK(round == rule.rounds.size());
    CHECK(has_check == (rule.check != CheckRound::None));
  }
}

TEST_CASE("a rule repeats its check round until nothing turns where its source does", "[record]") {
  // Source: sequences.csv Q021, Q024, Q028; dwell of at least 4 h: Q022 (seen).
  CHECK(record::pass_rule_named("legacy-flange-rounds").check ==
        CheckRound::CountingOrderUntilStill);
  CHECK(record::pass_rule_named("flange-rounds-until-still").check ==
        CheckRound::PatternUntilStill);
  CHECK(record::pass_rule_named("five-rounds").check == CheckRound::CountingOrderUntilStill);
  CHECK(record::pass_rule_named("flange-rounds").check == CheckRound::CountingOrder);
  CHECK_THAT(row_with(read_check_values("sequences.csv"), "Q022").at("passes"),
             ContainsSubstring("at least 4 h"));
  CHECK_THAT(std::string(record::pass_rule_named("legacy-flange-rounds").recheck),
             ContainsSubstring("at least 4 h"));
}

TEST_CASE("every rule rises to the full torque and has a name of its own", "[record]") {
  std::set<std::string_view> names;
  for (const auto& rule : record::pass_rules()) {
    INFO(rule.name);
    CHECK(names.insert(rule.name).second);
    CHECK(&record::pass_rule_named(rule.name) == &rule);
    CHECK_FALSE(rule.use.empty());
    CHECK_FALSE(rule.source.empty());
    CHECK((rule.how_known == "seen" || rule.how_known == "memory"));
    REQUIRE_FALSE(rule.rounds.empty());
    CHECK(rule.rounds.back().least.in_percent() == 100.0);
    CHECK(rule.rounds.back().most.in_percent() == 100.0);
    for (std::size_t i = 0; i < rule.rounds.size(); ++i) {
      CHECK(rule.rounds[i].least <= rule.rounds[i].share);
      CHECK(rule.rounds[i].share <= rule.rounds[i].most);
      if (i > 0) CHECK(rule.rounds[i - 1].share < rule.rounds[i].share);
    }
  }
}

TEST_CASE("a rule says for how many positions its source states it", "[record]") {
  // Source: sequences.csv Q023 (4 to 24), Q026 (4 and 8), Q027 (12 and more).
  CHECK_FALSE(record::pass_rule_named("three-rounds").is_stated_for(3));
  CHECK(record::pass_rule_named("three-rounds").is_stated_for(24));
  CHECK_FALSE(record::pass_rule_named("three-rounds").is_stated_for(25));
  CHECK(record::pass_rule_named("flange-rounds-few").is_stated_for(8));
  CHECK_FALSE(record::pass_rule_named("flange-rounds-few").is_stated_for(12));
  CHECK_FALSE(record::pass_rule_named("flange-rounds-many").is_stated_for(8));
  CHECK(record::pass_rule_named("flange-rounds-many").is_stated_for(64));
  CHECK(record::pass_rule_named("army-two-rounds").is_stated_for(1));
}

TEST_CASE("an unknown rule is answered with those there are", "[record]") {
  CHECK_THROWS_AS(record::pass_rule_named("six-rounds"), failure::InputError);
  CHECK_THROWS_WITH(
      record::pass_rule_named("six-rounds"),
      ContainsSubstring("\"six-rounds\" is no pass rule") && ContainsSubstring("three-rounds"));
}

}  // namespace pass_rule_test
