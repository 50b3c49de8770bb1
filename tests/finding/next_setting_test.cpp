#include "finding/next_setting.h"

#include <array>
#include <cmath>

#include "finding/found_torque.h"
#include "finding/search_simulation.h"
#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

namespace next_setting_test {

using finding::Ceiling;
using finding::NextSetting;
using finding::Proposal;
using finding::StopReason;
using quantity::Torque;

namespace {

// A search on an 80 N·m joint: tolerance 72 to 88 N·m, the wrench of test_bolt.h.
struct Case {
  record::Measured measured = measured_with("");
  record::Wrench wrench = wrench_20_to_200();
  std::optional<fastener::TorqueRange> expected =
      fastener::TorqueRange{Torque::newton_metres(72), Torque::newton_metres(88)};
  std::optional<Ceiling> ceiling = Ceiling{Torque::newton_metres(88), Ceiling::From::Tolerance};

  explicit Case(const std::string& readings = "") : measured(measured_with(readings)) {}

  [[nodiscard]] Proposal proposal() const {
    return finding::next_setting({measured, wrench, expected, ceiling});
  }
  [[nodiscard]] double next() const { return std::get<NextSetting>(proposal()).setting; }
  [[nodiscard]] finding::Stop stop() const { return std::get<finding::Stop>(proposal()); }
};

}  // namespace

TEST_CASE("a search starts low, goes in coarse steps and then in fine ones", "[finding]") {
  // Worked by hand: three fifths of 80 is 48; a twelfth of 48 is 4, of 61 it is 5.08. From 67 a
  // coarse step of 5.6 would pass 72; to 88 it is a factor 1.313, four twelfths: steps of 5.25.
  CHECK(Case().next() == 48.0);
  CHECK(Case("48s").next() == 52.0);
  CHECK(Case("53s 57s 61s").next() == 66.0);
  CHECK(Case("53s 57s 61s 67s").next() == 72.0);
  // 72 to 88: a factor 1.222, three twelfths: steps of 5.33, 5.5 and 5.
  CHECK(Case("67s 72s").next() == 77.0);
  CHECK(Case("67s 72s 77s").next() == 83.0);
  CHECK(Case("67s 72s 77s 83s").next() == 88.0);
}

TEST_CASE("a search that began far too low does not creep", "[finding]") {
  // A twelfth of 20 is 1.67, one graduation; there are 28 of them up to where a search begins.
  CHECK(Case("20s").next() == 48.0);
  CHECK(Case("20s 30n").next() == 48.0);
  CHECK(Case("46s").next() == 49.0);
  Case unknown("20s");
  unknown.expected.reset();
  unknown.ceiling.reset();
  CHECK(unknown.next() == 25.0);
  std::size_t pulls = 1;
  while (std::holds_alternative<NextSetting>(unknown.proposal())) {
    unknown.measured.readings.push_back({unknown.next(), record::Mark::Short, std::nullopt});
    ++pulls;
  }
  CHECK(unknown.measured.readings.back().setting == 200.0);
  CHECK(pulls == 12);
}

TEST_CASE("a search on a wrench too large for what is expected says so", "[finding]") {
  const auto why = [](Case c) { return std::get<NextSetting>(c.proposal()).why; };
  Case starts_high;
  starts_high.wrench.scale.low = 60.0;
  CHECK_THAT(why(starts_high), ContainsSubstring("the least this wrench can be used at") &&
                                   ContainsSubstring("would begin at 48 N·m"));
  Case above_all;
  above_all.wrench.scale = {100.0, 500.0, quantity::TorqueUnit::NewtonMetre};
  above_all.ceiling.reset();
  CHECK(above_all.next() == 100.0);
  CHECK_THAT(why(above_all), ContainsSubstring("already above the 88 N·m at most"));
  CHECK_THAT(why(Case()), ContainsSubstring("well below what is expected"));
}

TEST_CASE("a graduation that no decimal writes exactly still has its next mark", "[finding]") {
  // 12 graduations up a twelfth is exactly one graduation, whatever the rounding of its marks.
  Case c;
  for (const double graduation : {0.217941934, 0.1129848290276167, 1.3558179483}) {
    c.wrench.graduation = graduation;
    c.wrench.scale.low = graduation;
    c.measured = measured_with("");
    c.expected = fastener::TorqueRange{Torque::newton_metres(18 * graduation),
                                       Torque::newton_metres(22 * graduation)};
    c.ceiling = Ceiling{c.expected->high, Ceiling::From::Tolerance};
    const double first = c.next();
    CHECK_THAT(first, WithinRel(12 * graduation, 1e-6));
    c.measured.readings.push_back({first, record::Mark::Short, std::nullopt});
    CHECK_THAT(c.next(), WithinRel(13 * graduation, 1e-6));
  }
}

TEST_CASE("no search is made where nothing can be found", "[finding]") {
  record::Removal removal;
  CHECK_FALSE(finding::nothing_to_search(removal));
  removal.broke = record::BreakLoose::Seized;
  CHECK_FALSE(finding::nothing_to_search(removal));
  removal.marked = false;
  CHECK_THAT(finding::nothing_to_search(removal).value(), ContainsSubstring("no teardown mark"));
  removal.broke = record::BreakLoose::Empty;
  CHECK_THAT(finding::nothing_to_search(removal).value(), ContainsSubstring("empty"));
  removal.broke = record::BreakLoose::Sheared;
  CHECK_THAT(finding::nothing_to_search(removal).value(), ContainsSubstring("sheared"));
}

TEST_CASE("a search stops where the mark is bracketed finely enough", "[finding]") {
  CHECK(Case("70s 75s 80o").stop().reason == StopReason::Bracketed);
  // 75 to 81 past: half of 6 over 78 is 3.8 %.
  CHECK(Case("75s 81p").stop().reason == StopReason::Bracketed);
}

TEST_CASE("a wide bracket can only be narrowed by backing off, and the stop says how",
          "[finding]") {
  const auto stop = Case("60s 80p").stop();
  CHECK(stop.reason == StopReason::MarkReached);
  // A twelfth of 60 is 5.
  CHECK_THAT(stop.text,
             ContainsSubstring("slacken until the mark is well short, pull at 60 N·m and "
                               "go up in steps of 5 N·m"));
  const auto at_once = Case("60p").stop();
  CHECK(at_once.reason == StopReason::MarkReached);
  CHECK_THAT(at_once.text, ContainsSubstring("start again at 40 N·m"));
}

TEST_CASE("a scale too coarse for grade A is said, not worked around", "[finding]") {
  Case c("60s 80p");
  c.wrench.graduation = 10.0;
  CHECK_THAT(c.stop().text, ContainsSubstring("no step fine enough"));
  CHECK(Case("80s").next() == 84.0);
  Case coarse("70s");
  coarse.wrench.graduation = 10.0;
  CHECK(coarse.next() == 80.0);
}

TEST_CASE("a search never passes its ceiling, and says what it is", "[finding]") {
  CHECK(Case("86s").next() == 88.0);  // a fine step to 90 is cut
  const auto stop = Case("88s").stop();
  CHECK(stop.reason == StopReason::Ceiling);
  CHECK_THAT(stop.text, ContainsSubstring("88 N·m (the top of the tolerance)"));
  Case yield("60s");
  yield.ceiling = Ceiling{Torque::newton_metres(60.9), Ceiling::From::Yield};
  CHECK(yield.stop().reason == StopReason::Ceiling);
  CHECK_THAT(yield.stop().text, ContainsSubstring("90 % of the yield"));
}

TEST_CASE("a search stays on the wrench", "[finding]") {
  Case c("180s 199s");
  c.ceiling.reset();
  CHECK(c.next() == 200.0);
  Case end("200s");
  end.ceiling.reset();
  CHECK(end.stop().reason == StopReason::WrenchEnds);
  Case low;
  low.wrench.scale.low = 60.0;
  CHECK(low.next() == 60.0);
  Case too_large;
  too_large.wrench.scale = {100.0, 500.0, quantity::TorqueUnit::NewtonMetre};
  CHECK(too_large.stop().reason == StopReason::WrenchEnds);
  CHECK_THAT(too_large.stop().text, ContainsSubstring("smaller wrench"));
}

TEST_CASE("with nothing expected a search begins where the wrench begins", "[finding]") {
  Case c;
  c.expected.reset();
  c.ceiling.reset();
  CHECK(c.next() == 20.0);
  c.measured = measured_with("20s 60s");
  CHECK(c.next() == 75.0);
}

TEST_CASE("an adapter turns the ceiling into a setting", "[finding]") {
  Case c("70s");
  c.measured.adapter.torque_ratio = 1.25;  // 88 N·m at the fastener is 70.4 on the scale
  CHECK(c.stop().reason == StopReason::Ceiling);
  c.measured.readings.pop_back();
  CHECK(c.next() == 38.0);  // 48/1.25 = 38.4
}

TEST_CASE("whatever the readings, a proposal rises on the scale and below the ceiling",
          "[finding]") {
  holds_always("above the last setting, on the graduation, at most the ceiling", [] {
    Case c;
    c.wrench.graduation = *rc::gen::element(0.1, 0.5, 1.0, 2.0, 5.0, 10.0);
    c.wrench.scale.low = *rc::gen::inRange(0, 60);
    c.measured.adapter.torque_ratio = *rc::gen::element(1.0, 1.0, 0.8, 1.25);
    const double low = *rc::gen::inRange(5, 300);
    const auto range = fastener::TorqueRange{
        Torque::newton_metres(low), Torque::newton_metres(low + *rc::gen::inRange(0, 100))};
    c.expected = *rc::gen::element(true, false) ? std::optional(range) : std::nullopt;
    c.ceiling = *rc::gen::element(true, false)
                    ? std::optional(Ceiling{range.high, Ceiling::From::Tolerance})
                    : std::nullopt;
    double setting = *rc::gen::inRange(1, 40);
    const auto marks = *rc::gen::container<std::vector<record::Mark>>(
        rc::gen::element(record::Mark::Short, record::Mark::Short, record::Mark::Short,
                         record::Mark::NoMove, record::Mark::On, record::Mark::Past));
    for (const auto mark : marks) {
      c.measured.readings.push_back({setting, mark, std::nullopt});
      setting += *rc::gen::inRange(1, 300) / 10.0;
    }
    const auto proposal = c.proposal();
    if (const auto* next = std::get_if<NextSetting>(&proposal)) {
      const double last = marks.empty() ? 0.0 : c.measured.readings.back().setting;
      RC_ASSERT(next->setting > last);
      RC_ASSERT(next->setting <= c.wrench.scale.high + 1e-9);
      const double on_scale = next->setting / c.wrench.graduation;
      RC_ASSERT(std::fabs(on_scale - std::round(on_scale)) < 1e-6);
      if (c.ceiling) {
        RC_ASSERT(record::applied_torque(c.measured, next->setting) <=
                  c.ceiling->torque * (1.0 + 1e-9));
      }
      RC_ASSERT_FALSE(next->why.empty());
    } else {
      RC_ASSERT_FALSE(std::get<finding::Stop>(proposal).text.empty());
    }
  });
}

TEST_CASE("10,000 searches keep the promise: no ceiling passed, fewer pulls to grade A",
          "[finding][slow]") {
  struct Regime {
    std::size_t all_pulls_by_fixed = 0;
    std::size_t all_pulls = 0;
    std::size_t bracketed_by_fixed = 0;
    std::size_t bracketed = 0;
    std::size_t fine_by_fixed = 0;  // grade A by the rising settings alone
    std::size_t fine = 0;
    std::size_t settled_by_fixed = 0;
    std::size_t settled = 0;
    std::size_t pulls_by_fixed = 0;  // to grade A, of the bolts that both ways settle
    std::size_t pulls = 0;
  };
  std::array<Regime, 3> regimes;
  for (std::uint64_t number = 0; number < 10'000; ++number) {
    const auto bolt = simulate_bolt(20260601, number);
    if (bolt.proposed.passed_ceiling || bolt.proposed.off_graduation) {
      FAIL("bolt " << number << " passed the ceiling or left the graduation");
    }
    auto& regime = regimes[static_cast<std::size_t>(bolt.where)];
    regime.all_pulls_by_fixed += bolt.fixed.pulls;
    regime.all_pulls += bolt.proposed.pulls;
    if (bolt.fixed.bracketed) ++regime.bracketed_by_fixed;
    if (bolt.proposed.bracketed) ++regime.bracketed;
    if (bolt.fixed.grade == finding::Grade::A) ++regime.fine_by_fixed;
    if (bolt.proposed.grade == finding::Grade::A) ++regime.fine;
    if (bolt.fixed.pulls_to_grade_a) ++regime.settled_by_fixed;
    if (bolt.proposed.pulls_to_grade_a) ++regime.settled;
    if (!bolt.fixed.pulls_to_grade_a || !bolt.proposed.pulls_to_grade_a) continue;
    regime.pulls_by_fixed += *bolt.fixed.pulls_to_grade_a;
    regime.pulls += *bolt.proposed.pulls_to_grade_a;
  }
  // Pulls to grade A against fixed steps, narrowing included. Over 20 other seeds they come to
  // 0.997, 0.987 and 0.932: below the tolerance the two ways are equal (tests/benchmark/README.md).
  const std::array at_most = {1.01, 0.995, 0.96};
  for (std::size_t where = 0; where < regimes.size(); ++where) {
    const auto& regime = regimes[where];
    INFO("regime " << where);
    CHECK(regime.bracketed >= regime.bracketed_by_fixed);
    CHECK(regime.fine >= regime.fine_by_fixed);
    CHECK(regime.settled >= regime.settled_by_fixed);
    REQUIRE(regime.pulls > 0);
    CHECK(static_cast<double>(regime.pulls) <=
          at_most[where] * static_cast<double>(regime.pulls_by_fixed));
    // All pulls made, for each bracket of grade A that they gave without narrowing.
    CHECK(regime.all_pulls * regime.fine_by_fixed < regime.all_pulls_by_fixed * regime.fine);
  }
}

}  // namespace next_setting_test
