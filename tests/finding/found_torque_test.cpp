#include "finding/found_torque.h"

#include <cmath>

#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

namespace found_torque_test {

using finding::Basis;

TEST_CASE("a mark on the line gives that setting, half the last step wide", "[finding]") {
  // Worked by hand from the method's definition: on at 80 after short at 75.
  const auto found = found_with("60s 70s 75s 80o");
  CHECK(found.basis == Basis::Bracket);
  CHECK(found.best->in_newton_metres() == 80.0);
  CHECK(found.low->in_newton_metres() == 77.5);
  CHECK(found.high->in_newton_metres() == 82.5);
}

TEST_CASE("a mark past the line gives the middle of the last step", "[finding]") {
  const auto found = found_with("60s 70s 80p");
  CHECK(found.best->in_newton_metres() == 75.0);
  CHECK(found.low->in_newton_metres() == 70.0);
  CHECK(found.high->in_newton_metres() == 80.0);
}

TEST_CASE("a click without movement bounds the torque from below like a short mark", "[finding]") {
  CHECK(found_with("60s 75n 80o").low->in_newton_metres() == 77.5);
}

TEST_CASE("all readings at which the mark was on the line count", "[finding]") {
  // Worked by hand: on from 81 to 83, so 82; short at 80 and past at 84 are the edges.
  const auto found = found_with("80s 81o 82o 83o 84p");
  CHECK(found.best->in_newton_metres() == 82.0);
  CHECK(found.low->in_newton_metres() == 80.0);
  CHECK(found.high->in_newton_metres() == 84.0);
  CHECK_THAT(found.budget.reading.in_newton_metres(), WithinAbs(2.0 / std::sqrt(3.0), 1e-12));
  CHECK_FALSE(found.open_above);
  // Never past: the whole last step above the last one that was on, as a mark past it at 90 leaves.
  const auto open = found_with("80s 81o 82o 84o");
  CHECK(open.best->in_newton_metres() == 82.5);
  CHECK(open.low->in_newton_metres() == 80.0);
  CHECK(open.high->in_newton_metres() == 86.0);
  CHECK(found_with("80s 81o 82o 84o 90p").high == open.high);
  CHECK(found_with("80s 81o 82o 84o 85p").high->in_newton_metres() == 85.0);
  CHECK(open.open_above);
  // A mark past the line behind a single one that was on leaves estimate and edges.
  CHECK(found_with("70s 75o 80p").best == found_with("70s 75o").best);
  CHECK(found_with("70s 75o 80p").high == found_with("70s 75o").high);
  CHECK(found_with("70s 75o 76p").high->in_newton_metres() == 76.0);
}

TEST_CASE("short and past enclose the torque, and the mark has no part then", "[finding]") {
  const auto closed = found_with("60s 70s 78s 80o 82p");
  CHECK(closed.budget.mark == quantity::Torque::newton_metres(0));
  CHECK_THAT(closed.budget.reading.in_newton_metres(), WithinAbs(2.0 / std::sqrt(3.0), 1e-12));
  // Worked by hand: 2/√3 = 1.15470, u² = 1.33333 + 3.41333 + 2.56 = 7.30667, U = 5.40617.
  CHECK_THAT(closed.budget.expanded().in_newton_metres(), WithinAbs(5.40617, 1e-5));
  CHECK(found_with("60s 70s 80p").budget.mark == quantity::Torque::newton_metres(0));
}

TEST_CASE("one bound is a finding and says so", "[finding]") {
  const auto upper = found_with("60p");
  CHECK(upper.basis == Basis::UpperBound);
  CHECK_FALSE(upper.best.has_value());
  CHECK_FALSE(upper.low.has_value());
  CHECK(upper.high->in_newton_metres() == 60.0);
  const auto lower = found_with("60s 90s");
  CHECK(lower.basis == Basis::LowerBound);
  CHECK_FALSE(lower.high.has_value());
  CHECK(lower.low->in_newton_metres() == 90.0);
}

TEST_CASE("the uncertainty is the root sum of squares of its parts", "[finding]") {
  // Worked by hand: half-width 2.5, T 80, wrench ±4 % (ISO 6789-1), stopping late 2 %; the mark's
  // slope is not known, so 4.29464 % of 80 for each of the 1.92965° of half a pen line.
  //   2.5/√3 = 1.44338   0.04·80/√3 = 1.84752   0.02·80 = 1.6   3.43573·1.92965/√3 = 3.82769
  //   u = √(2.08333 + 3.41333 + 2.56 + 14.65122) = 4.76528, U = 9.53056
  // A rectangle's standard uncertainty: JCGM 100:2008 (GUM) 4.3.7, from memory.
  const auto budget = found_with("60s 70s 75s 80o").budget;
  CHECK_THAT(budget.reading.in_newton_metres(), WithinAbs(1.44338, 5e-6));
  CHECK_THAT(budget.wrench.in_newton_metres(), WithinAbs(1.84752, 5e-6));
  CHECK_THAT(budget.method.in_newton_metres(), WithinAbs(1.6, 1e-12));
  CHECK_THAT(budget.mark.in_newton_metres(), WithinAbs(3.82769, 1e-5));
  CHECK_THAT(budget.standard().in_newton_metres(), WithinAbs(4.76528, 1e-5));
  CHECK_THAT(budget.expanded().in_newton_metres(), WithinAbs(9.53056, 2e-5));
}

TEST_CASE("the grip on an adapter and a running torque have their parts", "[finding]") {
  auto measured = measured_with("60s 70s 80p");
  CHECK(found_with("60s 70s 80p").budget.grip == quantity::Torque::newton_metres(0));
  measured.adapter.torque_ratio = 1.25;
  measured.prevailing = quantity::read_torque("6 N·m");
  const auto budget = finding::found_torque(measured, wrench_20_to_200(),
                                            quantity::Percent::of_hundred(2.0), bolt_m12())
                          .budget;
  // Worked by hand: T = 75·1.25 = 93.75; (0.25/1.25)·5 % of it = 0.9375, /√3 = 0.541266; 10 % of
  // 6 N·m = 0.6, /√3 = 0.346410.
  CHECK_THAT(budget.grip.in_newton_metres(), WithinAbs(0.541266, 1e-6));
  CHECK_THAT(budget.running.in_newton_metres(), WithinAbs(0.346410, 1e-6));
}

TEST_CASE("an adapter and the wrench's own unit turn settings into torque", "[finding]") {
  auto measured = measured_with("50s 60o");
  measured.unit = quantity::TorqueUnit::FootPoundForce;
  measured.adapter.torque_ratio = 14.0 / 12.0;
  // Source: US Army TM 9-254 (W060): 12 in wrench, 2 in adapter, set to 60, applies 60 x 14/12 =
  // 70; there in lbf·in, here in ft·lbf.
  const auto found =
      finding::found_torque(measured, wrench_20_to_200(), quantity::Percent::of_hundred(2.0));
  CHECK_THAT(quantity::in_unit(*found.best, quantity::TorqueUnit::FootPoundForce),
             WithinRel(70.0, 1e-12));
}

TEST_CASE("the bracket always holds the estimate, and finer steps never widen it", "[finding]") {
  holds_always("low <= best <= high; U grows with the step", [] {
    const double step = *rc::gen::inRange(1, 40) / 2.0;
    const double from = *rc::gen::inRange(20, 150);
    const auto bracket = [&](double width, record::Mark mark) {
      auto measured = measured_with("20s");
      measured.readings = {{from, record::Mark::Short, std::nullopt},
                           {from + width, mark, std::nullopt}};
      return finding::found_torque(measured, wrench_20_to_200(),
                                   quantity::Percent::of_hundred(2.0));
    };
    const auto mark = *rc::gen::element(record::Mark::On, record::Mark::Past);
    const auto found = bracket(step, mark);
    RC_ASSERT(*found.low <= *found.best);
    RC_ASSERT(*found.best <= *found.high);
    RC_ASSERT(bracket(step / 2.0, mark).budget.reading < found.budget.reading);
  });
}

}  // namespace found_torque_test
