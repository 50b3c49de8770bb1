#include <cmath>

#include "finding/survey.h"
#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

// Less data never makes the uncertainty smaller or the verdict firmer.

namespace {

using finding::FoundTorque;
using finding::TestedBolt;
using quantity::Torque;
using record::Mark;
using record::SettingReading;

// Rising settings, short first, then on for none or several, then past or not.
std::vector<SettingReading> any_readings() {
  std::vector<SettingReading> readings;
  double setting = *rc::gen::inRange(20, 60);
  const auto pull = [&](Mark mark, int times) {
    for (int i = 0; i < times; ++i) {
      readings.push_back({setting, mark, std::nullopt});
      setting += *rc::gen::inRange(1, 24) / 2.0;
    }
  };
  pull(Mark::Short, *rc::gen::inRange(1, 4));
  pull(Mark::On, *rc::gen::inRange(0, 4));
  pull(Mark::Past, *rc::gen::inRange(0, 3));
  return readings;
}

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
    const auto readings = any_readings();
    if (readings.size() < 2) return;
    const auto bolt = any_bolt();
    const auto all = found_of(readings, wrench_20_to_200(), bolt);
    const auto window = any_window();
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
    const auto readings = any_readings();
    const auto bolt = any_bolt();
    auto without_length = bolt;
    without_length.length.reset();
    const auto window = any_window();
    const auto known = found_of(readings, wrench_20_to_200(), bolt);
    const auto unknown = found_of(readings, wrench_20_to_200(), without_length);
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
    RC_ASSERT(is_no_surer(found_of(without, wrench_20_to_200(), bolt), sure));
  });
}

TEST_CASE("a certificate left out never makes the uncertainty smaller", "[finding]") {
  // One that is worse than the standard permits says that the wrench does not fulfil it.
  holds_always("no surer without a certificate", [] {
    const auto readings = any_readings();
    const auto bolt = any_bolt();
    auto certified = wrench_20_to_200();
    certified.accuracy = quantity::Percent::of_hundred(*rc::gen::inRange(5, 41) / 10.0);
    RC_ASSERT(found_of(readings, wrench_20_to_200(), bolt).budget.expanded() >=
              found_of(readings, certified, bolt).budget.expanded());
  });
}
