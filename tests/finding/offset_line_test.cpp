#include "finding/offset_line.h"

#include <cmath>

#include "finding/found_torque.h"
#include "finding/grade.h"
#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

namespace offset_line_test {

using finding::Basis;
using finding::LineUse;

namespace {

finding::OffsetLineResult line_of(const std::string& readings) {
  return finding::offset_line(
      measured_with(readings),
      {wrench_20_to_200(), quantity::Angle::degrees(2.0), quantity::Torque::newton_metres(6.4)});
}

finding::Graded graded(const std::string& readings) {
  const auto measured = measured_with(readings);
  const auto wrench = wrench_20_to_200();
  const auto torque = found_with(readings);
  return finding::grade({measured, torque, &wrench, record::read_day("2026-06-01"),
                         record::BreakLoose::Normal, true, fastener::Condition::AsReceived});
}

}  // namespace

TEST_CASE("each rule of a sound line refuses by itself", "[finding]") {
  CHECK(line_of("60s 70s 80o").use == LineUse::NoOffsets);
  CHECK(line_of("60s 12° 70s 6°").use == LineUse::TooFew);
  CHECK(line_of("60s 70s 6° 75s 6° 79s 6°").use == LineUse::TooFew);
  CHECK(line_of("60s 6° 70s 9° 75s 12°").use == LineUse::NotRising);
  CHECK(line_of("60s 12° 64s 5° 70s 9° 76s 4° 80s 3°").use == LineUse::Scattered);
  CHECK(line_of("60s 18° 66s 14° 70s 12°").use == LineUse::TooFar);
  CHECK(line_of("60s 12° 66s 8° 69s 6° 70n 75s 3°").use == LineUse::Stuck);
  // 10 readings on 80 - 5/3 x but the fifth 11 N·m above it: r² is 0.96, and 11 N·m is more than
  // 4 % of 78 N·m and 2° of mark error together.
  CHECK(
      line_of("20s 36° 30s 30° 40s 24° 50s 18° 71s 12° 71.5s 5.1° 73s 4.2° 75s 3° 77s 1.8°").use ==
      LineUse::Outlier);
  // 10 N·m for each degree is more than 6.4.
  CHECK(line_of("50s 3° 60s 2° 70s 1°").use == LineUse::TooSteep);
  CHECK(line_of("60s 12° 70s 6° 75s 3°").use == LineUse::Used);
  // A pull that moved nothing before the first offset was read says nothing about the line.
  CHECK(line_of("50n 60s 12° 70s 6° 75s 3°").use == LineUse::Used);
}

TEST_CASE("a sound line narrower than the bracket is the finding", "[finding]") {
  // Worked by hand: the readings lie on T = 80 - 5/3 x; the bracket is 75 to 85.
  const auto found = found_with("60s 12° 70s 6° 80o");
  CHECK(found.basis == Basis::Line);
  CHECK(found.line_use == LineUse::Used);
  CHECK_THAT(found.best->in_newton_metres(), WithinAbs(80.0, 1e-9));
  CHECK_THAT(found.slope.high.in_newton_metres(), WithinAbs(5.0 / 3.0, 1e-12));
  CHECK(found.slope.from == finding::SlopeFrom::Offsets);
  // A line without scatter was still read to the degree: 1.96·(5/3·0.5/√3)·√(1/3 + 36/72) =
  // 0.86084, half of which stands in u.
  CHECK_THAT(found.high->in_newton_metres(), WithinAbs(80.86084, 1e-5));
  CHECK_THAT(found.budget.reading.in_newton_metres(), WithinAbs(0.43042, 1e-5));
  // 1.92965° of a rectangle times 5/3 N·m per degree: 3.21609/√3 = 1.85681
  CHECK_THAT(found.budget.mark.in_newton_metres(), WithinAbs(1.85681, 1e-5));
  // u² = 1.84752² + 1.85681² + 1.6² + 0.43042² = 9.60633
  CHECK_THAT(found.budget.standard().in_newton_metres(), WithinAbs(3.09941, 1e-5));
}

TEST_CASE("the interval of the line is Student's", "[finding]") {
  // Source: scripts/reference_line_fit.py, "both sides of the line": 80.3019, 95 % interval
  // 78.8185 to 81.7852 (half-width 1.48334); the marks alone give 79 to 88. The resolution of the
  // offsets, by hand: slope 187.25/92.75 = 2.01887, √(1/4 + 2.75²/92.75) = 0.575792, so
  // 1.96·2.01887·0.288675·0.575792 = 0.657708 and √(1.48334² + 0.657708²) = 1.622615.
  const auto found = found_with("62s 9° 70s 5° 79s 1° 88p 4°");
  REQUIRE(found.basis == Basis::Line);
  CHECK_THAT(found.best->in_newton_metres(), WithinAbs(80.30188679, 1e-8));
  CHECK_THAT(found.low->in_newton_metres(), WithinAbs(80.30188679 - 1.622615, 1e-5));
  CHECK_THAT(found.high->in_newton_metres(), WithinAbs(80.30188679 + 1.622615, 1e-5));
  // All of the 95 % interval stands in U = 2u.
  CHECK_THAT(2.0 * found.budget.reading.in_newton_metres(), WithinAbs(1.622615, 1e-5));
}

TEST_CASE("the bracket stays where the line is no better or contradicts it", "[finding]") {
  const auto wide = found_with("62s 9° 70.5s 5° 78s 1° 81p");
  CHECK(wide.basis == Basis::Bracket);
  CHECK(wide.line_use == LineUse::NotNarrower);
  CHECK(wide.best->in_newton_metres() == 79.5);
  const auto against = found_with("60s 12° 70s 6° 75s 3° 77o 0° 81o 0° 86p 3°");
  CHECK(against.line_use != LineUse::Used);
  const auto outside = found_with("50s 18° 60s 12° 70s 6° 86s 1° 90o");
  CHECK(outside.basis == Basis::Bracket);
  CHECK(outside.line_use == LineUse::OutsideBracket);
  CHECK(outside.low->in_newton_metres() == 88.0);
  // The slope is known all the same, and with it the mark's part.
  CHECK(outside.budget.mark > quantity::Torque::newton_metres(0));
}

TEST_CASE("a line that reaches for the mark from one side is grade B at best", "[finding]") {
  const std::string short_of_it = "60s 12° 70s 6° 75s 3°";
  CHECK(found_with(short_of_it).basis == Basis::Line);
  const auto extrapolated = graded(short_of_it);
  REQUIRE(extrapolated.rules.size() == 1);
  CHECK(extrapolated.rules.front()->name == "extrapolated");
  CHECK(extrapolated.grade == finding::Grade::B);
  CHECK(graded("60s 12° 70s 6° 80o").grade == finding::Grade::A);
  // Too wide an interval is no better than the bound: it stays one.
  CHECK(found_with("60s 12° 68s 6° 76s 4°").basis == Basis::LowerBound);
}

TEST_CASE("a line never widens a finding, nor leaves the bracket", "[finding]") {
  holds_always("with offsets the finding lies inside what the marks allow", [] {
    const double truth = *rc::gen::inRange(300, 1500) / 10.0;
    const double per_degree = *rc::gen::inRange(5, 40) / 10.0;
    auto measured = measured_with("20s");
    auto bare = measured;
    measured.readings.clear();
    bare.readings.clear();
    double setting = 20.0;
    while (setting < truth * 1.1) {
      setting += *rc::gen::inRange(2, 12);
      const double error = *rc::gen::inRange(-10, 11) / 10.0;
      const double degrees = (truth - setting) / per_degree + error;
      const auto mark = setting < truth ? record::Mark::Short : record::Mark::Past;
      measured.readings.push_back({setting, mark, quantity::Angle::degrees(degrees)});
      bare.readings.push_back({setting, mark, std::nullopt});
    }
    const auto method = quantity::Percent::of_hundred(2.0);
    const auto with = finding::found_torque(measured, wrench_20_to_200(), method, bolt_m12());
    const auto without = finding::found_torque(bare, wrench_20_to_200(), method, bolt_m12());
    RC_ASSERT(with.best.has_value() || !without.best.has_value());
    if (without.best) {
      const auto read = [](const finding::FoundTorque& found) {
        return std::hypot(found.budget.reading.in_newton_metres(),
                          found.budget.mark.in_newton_metres());
      };
      RC_ASSERT(read(with) <= read(without) * (1.0 + 1e-12));
      RC_ASSERT(*with.best >= *without.low);
      RC_ASSERT(*with.best <= *without.high);
    }
  });
}

}  // namespace offset_line_test
