#include "finding/verdict.h"

#include <cmath>

#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/published.h"

namespace verdict_test {

using finding::FoundTorque;
using finding::judge;
using finding::Verdict;
using quantity::Torque;

namespace {

FoundTorque found_at(double newton_metres, double expanded) {
  FoundTorque found;
  found.best = Torque::newton_metres(newton_metres);
  found.low = found.best;
  found.high = found.best;
  found.budget.wrench = Torque::newton_metres(expanded / 2.0);
  return found;
}

record::ToleranceWindow window(double low, double high) {
  record::ToleranceWindow result;
  result.low = Torque::newton_metres(low);
  result.high = Torque::newton_metres(high);
  return result;
}

record::ToleranceWindow ten_percent(double nominal_ftlbf) {
  record::TorqueTarget target;
  target.value = nominal_ftlbf;
  target.unit = quantity::TorqueUnit::FootPoundForce;
  return record::window_of(target, quantity::Percent::of_hundred(10.0));
}

FoundTorque found_in_ftlbf(const std::string& readings) {
  auto measured = measured_with(readings);
  measured.unit = quantity::TorqueUnit::FootPoundForce;
  return finding::found_torque(measured, wrench_20_to_200(), quantity::Percent::of_hundred(2.0));
}

}  // namespace

TEST_CASE("the guard band decides as the published micrometer example does",
          "[finding][published]") {
  // Source: worked micrometer example of the ILAC-G8 rule (G8EX, seen): limit ±0.003, U = 0.0010,
  // acceptance limit ±0.002; 0.0017 conforms, 0.0025 in doubt, 0.003 to 0.004 in doubt, above 0.004
  // rejected. The rule does not care about the unit.
  const auto published = [](double deviation) {
    count_published(Published::Seen);
    return judge(found_at(deviation, 0.001), window(-0.003, 0.003));
  };
  CHECK(published(0.0017) == Verdict::Within);
  CHECK(published(0.0025) == Verdict::Undecided);
  CHECK(published(0.0035) == Verdict::Undecided);
  CHECK(published(0.0045) == Verdict::High);
  CHECK(judge(found_at(-0.0045, 0.001), window(-0.003, 0.003)) == Verdict::Low);
}

TEST_CASE("90 N·m ±10 % with U = 3.6 N·m has the zones worked out by hand", "[finding]") {
  // Worked by hand: 81 to 99, w = U = 3.6: within 84.6 to 95.4, undecided 77.4 to 102.6.
  const auto limits = window(81, 99);
  CHECK(judge(found_at(84.61, 3.6), limits) == Verdict::Within);
  CHECK(judge(found_at(84.59, 3.6), limits) == Verdict::Undecided);
  CHECK(judge(found_at(95.39, 3.6), limits) == Verdict::Within);
  CHECK(judge(found_at(95.41, 3.6), limits) == Verdict::Undecided);
  CHECK(judge(found_at(77.41, 3.6), limits) == Verdict::Undecided);
  CHECK(judge(found_at(77.39, 3.6), limits) == Verdict::Low);
  CHECK(judge(found_at(102.59, 3.6), limits) == Verdict::Undecided);
  CHECK(judge(found_at(102.61, 3.6), limits) == Verdict::High);
}

TEST_CASE("70 ft·lbf found in steps of 5 against 70 ft·lbf is within", "[finding]") {
  // Common practice, no source.
  CHECK(judge(found_in_ftlbf("55s 60s 65s 70o 74p"), ten_percent(70)) == Verdict::Within);
}

TEST_CASE("5 ft·lbf found in steps of 1 cannot be decided by ±10 %", "[finding]") {
  // Common practice, no source: the half-step alone is the whole tolerance.
  CHECK(judge(found_in_ftlbf("3s 4s 5o"), ten_percent(5)) == Verdict::Undecided);
}

TEST_CASE("a bound decides only what it can", "[finding]") {
  const auto limits = window(72, 88);
  CHECK(judge(found_with("40p"), limits) == Verdict::Low);
  CHECK(judge(found_with("80p"), limits) == Verdict::Undecided);
  CHECK(judge(found_with("80s 120s"), limits) == Verdict::High);
  CHECK(judge(found_with("60s"), limits) == Verdict::Undecided);
}

TEST_CASE("a limit that the specification does not have is never broken", "[finding]") {
  record::ToleranceWindow at_least;
  at_least.low = Torque::newton_metres(90);
  CHECK(judge(found_at(200, 5), at_least) == Verdict::Within);
  CHECK(judge(found_with("100s 120s"), at_least) == Verdict::Within);
  CHECK(judge(found_at(80, 5), at_least) == Verdict::Low);
  record::ToleranceWindow at_most;
  at_most.high = Torque::newton_metres(12);
  CHECK(judge(found_at(5, 1), at_most) == Verdict::Within);
  CHECK(judge(found_at(14, 1), at_most) == Verdict::High);
}

TEST_CASE("a verdict never turns from low to high without undecided between", "[finding]") {
  holds_always("rising torque passes low, undecided, within or undecided, high in this order", [] {
    const double expanded = *rc::gen::inRange(1, 200) / 10.0;
    const auto limits = window(72, 88);
    const auto rank = [&](double torque) {
      switch (judge(found_at(torque, expanded), limits)) {
        case Verdict::Low:
          return 0;
        case Verdict::High:
          return 2;
        default:
          return 1;
      }
    };
    const double torque = *rc::gen::inRange(0, 2000) / 10.0;
    RC_ASSERT(rank(torque) <= rank(torque + 0.1));
    // What is proved within stays within when the measurement gets better.
    if (judge(found_at(torque, expanded), limits) == Verdict::Within) {
      RC_ASSERT(judge(found_at(torque, expanded / 2), limits) == Verdict::Within);
    }
  });
}

}  // namespace verdict_test
