#include <cmath>
#include <numbers>

#include "finding/any_readings.h"
#include "finding/survey.h"
#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

namespace less_data_test {

// Less data never makes the uncertainty smaller or the verdict firmer.

namespace {

using finding::FoundTorque;
using finding::TestedBolt;
using quantity::Torque;
using record::Mark;
using record::SettingReading;

TestedBolt any_bolt() {
  TestedBolt bolt;
  const double diameter = *rc::gen::element(6.0, 8.0, 10.0, 12.0, 16.0, 20.0);
  bolt.thread = fastener::Thread::metric(diameter, diameter / 7.0);
  bolt.length = quantity::Length::millimetres(diameter * *rc::gen::inRange(2, 12));
  bolt.condition =
      *rc::gen::elementOf(std::vector(fastener::kConditions.begin(), fastener::kConditions.end()));
  return bolt;
}

FoundTorque found_of(const std::vector<SettingReading>& readings, const record::Wrench& wrench,
                     const TestedBolt& bolt) {
  auto measured = measured_with("20s");
  measured.readings = readings;
  return finding::found_torque(measured, wrench, quantity::Percent::of_hundred(2.0), bolt);
}

// U, over the torque too, since the parts of wrench and stopping late go with it. A bound has no
// upper end to its uncertainty.
bool is_no_surer(const FoundTorque& less, const FoundTorque& more) {
  if (!less.best) return true;
  if (!more.best) return false;
  const double slack = 1.0 + 1e-12;
  const double u_less = less.budget.expanded().in_newton_metres();
  const double u_more = more.budget.expanded().in_newton_metres();
  return u_less * slack >= u_more ||
         u_less / less.best->in_newton_metres() * slack >= u_more / more.best->in_newton_metres();
}

// How firm: decided or not.
bool is_decided(const FoundTorque& found, const record::ToleranceWindow& window) {
  return finding::judge(found, window) != finding::Verdict::Undecided;
}

record::ToleranceWindow any_window() {
  const double nominal = *rc::gen::inRange(30, 120);
  record::ToleranceWindow window;
  window.low = Torque::newton_metres(nominal * 0.9);
  window.high = Torque::newton_metres(nominal * 1.1);
  return window;
}

}  // namespace

TEST_CASE("a reading left out never makes the uncertainty smaller", "[finding]") {
  holds_always("every reading but one is no surer than all", [] {
    const auto readings = any_rising_readings(1);
    if (readings.size() < 2) return;
    const auto bolt = any_bolt();
    const auto all = found_of(readings, wrench_20_to_200(), bolt);
    const auto window = any_window();
    // Not where a reading shows that the pen does not explain it (below).
    if (all.budget.mark * std::numbers::sqrt3 >
        all.slope.counts * (all.mark_error.in_degrees() * (1.0 + 1e-9))) {
      return;
    }
    for (std::size_t i = 0; i < readings.size(); ++i) {
      auto fewer = readings;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      const auto less = found_of(fewer, wrench_20_to_200(), bolt);
      RC_ASSERT(is_no_surer(less, all));
      // Where the estimate stays, so does or falls the firmness of what is said of it.
      if (less.best == all.best && all.best) {
        RC_ASSERT(is_decided(all, window) || !is_decided(less, window));
      }
    }
  });
}

TEST_CASE("a length or size left out never makes the uncertainty smaller", "[finding]") {
  holds_always("nothing unknown counts as zero", [] {
    const auto readings = any_rising_readings(1);
    const auto bolt = any_bolt();
    auto without_length = bolt;
    without_length.length.reset();
    const auto window = any_window();
    const auto known = found_of(readings, wrench_20_to_200(), bolt);
    const auto unknown = found_of(readings, wrench_20_to_200(), without_length);
    if (known.slope.counts > unknown.slope.counts) return;  // shown to be stiffer (below)
    RC_ASSERT(unknown.best == known.best);
    RC_ASSERT(unknown.budget.expanded() >= known.budget.expanded());
    RC_ASSERT(is_decided(known, window) || !is_decided(unknown, window));
    const auto nothing = found_of(readings, wrench_20_to_200(), {});
    RC_ASSERT(nothing.budget.expanded() >= known.budget.expanded());
  });
}

TEST_CASE("offsets left out never make the uncertainty smaller", "[finding]") {
  holds_always("no surer without offsets", [] {
    const auto bolt = any_bolt();
    const double truth = *rc::gen::inRange(300, 1500) / 10.0;
    const double per_degree = *rc::gen::inRange(5, 200) / 10.0;
    std::vector<SettingReading> with;
    std::vector<SettingReading> without;
    double setting = truth * 0.5;
    const double end = truth * *rc::gen::element(1.0, 1.15);
    while (setting < end) {
      const double error = *rc::gen::inRange(-15, 16) / 10.0;
      const double degrees = (truth - setting) / per_degree + error;
      const auto mark = setting < truth ? Mark::Short : Mark::Past;
      if ((degrees > 0) != (mark == Mark::Short) || degrees == 0.0) return;  // denies its mark
      with.push_back({setting, mark, quantity::Angle::degrees(degrees)});
      without.push_back({setting, mark, std::nullopt});
      setting += truth * *rc::gen::inRange(2, 15) / 100.0;
    }
    const auto sure = found_of(with, wrench_20_to_200(), bolt);
    RC_CLASSIFY(sure.basis == finding::Basis::Line, "line");
    const auto unsure = found_of(without, wrench_20_to_200(), bolt);
    if (sure.slope.counts > unsure.slope.counts) return;  // shown to be stiffer (below)
    RC_ASSERT(is_no_surer(unsure, sure));
  });
}

TEST_CASE("a certificate left out never makes the uncertainty smaller", "[finding]") {
  // One that is worse than the standard permits says that the wrench does not fulfil it.
  holds_always("no surer without a certificate", [] {
    const auto readings = any_rising_readings(1);
    const auto bolt = any_bolt();
    auto certified = wrench_20_to_200();
    certified.accuracy = quantity::Percent::of_hundred(*rc::gen::inRange(5, 41) / 10.0);
    RC_ASSERT(found_of(readings, wrench_20_to_200(), bolt).budget.expanded() >=
              found_of(readings, certified, bolt).budget.expanded());
  });
}

TEST_CASE("the exceptions to less data being less sure are these", "[finding]") {
  // finding/verdict.h and the page help found-torque name them.
  record::ToleranceWindow window;
  window.low = Torque::newton_metres(72.0);
  window.high = Torque::newton_metres(88.0);
  // Worked by hand at 64 N·m: without the step u² = (0.04·64/√3)² + (0.02·64)² +
  // (1.92965·2.74857/√3)² = 2.184 + 1.638 + 9.377, U = 7.27, 71.27 < 72; half of the step of 8 adds
  // (4/√3)² = 5.333, U = 8.61.
  CHECK(finding::judge(found_with("64o"), window) == finding::Verdict::Low);
  CHECK(finding::judge(found_with("56s 64o"), window) == finding::Verdict::Undecided);

  auto worse = wrench_20_to_200();
  worse.accuracy = quantity::Percent::of_hundred(6.0);
  const auto readings = measured_with("60s 70o").readings;
  CHECK(found_of(readings, worse, bolt_m12()).budget.expanded() >
        found_of(readings, wrench_20_to_200(), bolt_m12()).budget.expanded());

  // 70o left out moves the middle from 69 to 68, and U with it, but not U over the torque.
  const auto all = found_with("60s 68o 70o");
  const auto fewer = found_with("60s 68o");
  CHECK(fewer.budget.expanded() < all.budget.expanded());
  CHECK(fewer.budget.expanded() / *fewer.best >= all.budget.expanded() / *all.best);

  // On the line from 65 to 85, half of which, 10, is more than the 1.93° of the pen make: what
  // would be ±9.0 by the pen is 2 √(2.5²/3 + 10²/3 + (0.04·75)²/3 + (0.02·75)²) = ±12.75 and holds
  // them.
  const auto wide = found_with("60s 65o 85o");
  CHECK_THAT(wide.budget.expanded().in_newton_metres(), WithinAbs(12.754, 0.001));
  CHECK(found_with("60s 65o").budget.expanded() < wide.budget.expanded());

  // A short bolt is stiffer than what is taken without its length.
  auto short_bolt = bolt_m12();
  short_bolt.length = quantity::Length::millimetres(20.0);
  CHECK(found_of(readings, wrench_20_to_200(), bolt_m12()).budget.mark <
        found_of(readings, wrench_20_to_200(), short_bolt).budget.mark);
}

}  // namespace less_data_test
