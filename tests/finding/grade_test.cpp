#include "finding/grade.h"

#include "finding/any_readings.h"
#include "finding/test_bolt.h"
#include "finding/what_would_help.h"
#include "support/catch.h"
#include "support/property.h"

namespace grade_test {

using finding::Grade;
using record::BreakLoose;

namespace {

// A clean finding, to be spoilt in one respect.
struct Case {
  record::Measured measured = measured_with("60s 70s 75s 80o");
  record::Wrench wrench = wrench_20_to_200();
  record::Day day = record::read_day("2026-06-01");
  std::optional<BreakLoose> broke = BreakLoose::Normal;
  bool marked = true;
  bool has_wrench = true;
  fastener::Condition condition = fastener::Condition::AsReceived;

  [[nodiscard]] finding::Graded graded() const {
    const auto torque = finding::found_torque(measured, wrench, quantity::Percent::of_hundred(2.0));
    return finding::grade(
        {measured, torque, has_wrench ? &wrench : nullptr, day, broke, marked, condition});
  }
};

// Exactly one rule applies, of this name and with this grade.
void check_one_rule(const Case& subject, std::string_view name, Grade grade) {
  const auto graded = subject.graded();
  INFO(name);
  REQUIRE(graded.rules.size() == 1);
  CHECK(graded.rules.front()->name == name);
  CHECK(graded.grade == grade);
}

}  // namespace

TEST_CASE("a clean bracket with a calibrated wrench is grade A", "[finding]") {
  const auto graded = Case{}.graded();
  CHECK(graded.grade == Grade::A);
  CHECK(graded.rules.empty());
}

TEST_CASE("each grade rule applies by itself, and not at its near miss", "[finding]") {
  Case c;
  SECTION("no mark") {
    c.marked = false;
    check_one_rule(c, "no mark", Grade::X);
  }
  SECTION("hole empty") {
    c.broke = BreakLoose::Empty;
    check_one_rule(c, "hole empty", Grade::X);
  }
  SECTION("sheared") {
    c.broke = BreakLoose::Sheared;
    check_one_rule(c, "sheared", Grade::X);
  }
  SECTION("wrench struck") {
    c.has_wrench = false;
    check_one_rule(c, "wrench struck", Grade::X);
  }
  SECTION("out of range") {
    c.wrench.scale.low = 76.0;
    check_one_rule(c, "out of range", Grade::X);
  }
  SECTION("between marks") {
    c.measured.readings.back().setting += 0.5;
    check_one_rule(c, "between marks", Grade::B);
  }
  SECTION("an indicating wrench is read between its marks") {
    c.measured.readings.back().setting += 0.5;
    c.wrench.kind = record::WrenchKind::Indicating;
    CHECK(c.graded().grade == Grade::A);
  }
  SECTION("four per cent exactly is a fine bracket in every unit") {
    // 48 to 52 past: half of 4 over 50.
    for (const auto unit : quantity::kTorqueUnits) {
      c.measured = measured_with("48s 52p");
      c.measured.unit = unit;
      c.wrench.scale.unit = unit;
      INFO(quantity::name_of(unit));
      CHECK(c.graded().grade == Grade::A);
    }
  }
  SECTION("an early reading out of range does not matter") {
    c.wrench.scale.low = 74.0;
    CHECK(c.graded().grade == Grade::A);
  }
  SECTION("threadlocker") {
    c.condition = fastener::Condition::Threadlocker;
    check_one_rule(c, "threadlocker", Grade::C);
  }
  SECTION("calibration expired") {
    c.day = record::read_day("2027-03-03");
    check_one_rule(c, "calibration not valid", Grade::C);
  }
  SECTION("calibrated after the test") {
    c.day = record::read_day("2026-03-01");
    check_one_rule(c, "calibration not valid", Grade::C);
  }
  SECTION("on the last day of the calibration") {
    c.day = record::read_day("2027-03-02");
    CHECK(c.graded().grade == Grade::A);
  }
  SECTION("one bound only") {
    c.measured = measured_with("60s 80s");
    check_one_rule(c, "one bound only", Grade::C);
  }
  SECTION("wide bracket") {
    c.measured = measured_with("60s 80o");
    check_one_rule(c, "wide bracket", Grade::C);
  }
  SECTION("fair bracket") {
    c.measured = measured_with("70s 80o");
    check_one_rule(c, "fair bracket", Grade::B);
  }
  SECTION("jumped") {
    c.measured = measured_with("70s 75n 80o");
    check_one_rule(c, "jumped", Grade::C);
  }
  SECTION("clicked without moving") {
    c.measured = measured_with("60n 75s 80o");
    check_one_rule(c, "clicked without moving", Grade::B);
  }
  SECTION("clicked without moving, but backed off each time") {
    c.measured = measured_with("60n 75s 80o");
    c.measured.restart = record::Restart::BackedOff;
    CHECK(c.graded().grade == Grade::A);
  }
  SECTION("already loose") {
    c.broke = BreakLoose::AlreadyLoose;
    check_one_rule(c, "already loose", Grade::C);
  }
  SECTION("seized") {
    c.broke = BreakLoose::Seized;
    check_one_rule(c, "seized", Grade::C);
  }
  SECTION("broke tight") {
    c.broke = BreakLoose::Tight;
    check_one_rule(c, "broke tight", Grade::B);
  }
  SECTION("neighbours slack") {
    c.measured.neighbours = record::Neighbours::Slack;
    check_one_rule(c, "neighbours slack", Grade::B);
  }
  SECTION("neighbours tight") {
    c.measured.neighbours = record::Neighbours::Tight;
    CHECK(c.graded().grade == Grade::A);
  }
  SECTION("calibration unknown") {
    c.wrench.calibrated.reset();
    check_one_rule(c, "calibration unknown", Grade::B);
  }
}

TEST_CASE("the worst rule decides, and all are told", "[finding]") {
  Case c;
  c.wrench.calibrated.reset();
  c.marked = false;
  const auto graded = c.graded();
  CHECK(graded.grade == Grade::X);
  CHECK(graded.rules.size() == 2);
}

TEST_CASE("what is said of the bracket agrees with the bracket that is shown", "[finding]") {
  // 70s 75o 80p was called wider than ±4 % beside "bracket 72.5 to 77.5", which is ±3.3 %.
  Case known;
  known.measured = measured_with("70s 75o 80p");
  CHECK(known.graded().grade == Grade::A);
  holds_always("the reason is true of the numbers", [] {
    Case c;
    c.measured.readings = any_rising_readings();
    const auto torque =
        finding::found_torque(c.measured, c.wrench, quantity::Percent::of_hundred(2));
    const auto graded = c.graded();
    const auto says = [&](std::string_view name) {
      return std::ranges::any_of(graded.rules,
                                 [&](const auto* rule) { return rule->name == name; });
    };
    if (!torque.best) {
      RC_ASSERT(says("one bound only"));
      return;
    }
    const double width = (*torque.high - *torque.low) / 2.0 / *torque.best;
    RC_CLASSIFY(width > 0.08, "wide");
    RC_ASSERT(says("wide bracket") == (width > 0.08 * (1 + 1e-9)));
    RC_ASSERT(says("fair bracket") == (width > 0.04 * (1 + 1e-9) && width <= 0.08 * (1 + 1e-9)));
    // What would help is a bracket's matter exactly where the grade says that it is too wide.
    const auto advice = finding::what_would_narrow({c.measured, c.wrench, torque});
    RC_ASSERT(advice.has_value() == (width > 0.04 * (1 + 1e-9)));
  });
}

}  // namespace grade_test
