#include "record/specification.h"

#include <string>

#include "support/catch.h"

namespace specification_test {

using quantity::Percent;
using quantity::Torque;
using quantity::TorqueUnit;
using record::final_torque;
using record::has_angle_step;
using record::read_specification;
using record::TorqueTarget;
using Form = record::TorqueTarget::Form;

namespace {

constexpr auto kNewtonMetre = TorqueUnit::NewtonMetre;

record::ToleranceWindow window_at_ten_percent(const TorqueTarget& target) {
  return record::window_of(target, Percent::of_hundred(10.0));
}

// The final torque as text; "-" where there is none.
std::string final_of(std::string_view specification) {
  const auto target = final_torque(read_specification(specification));
  return target ? write_exact(*target) : "-";
}

}  // namespace

// The expected limits are worked by hand in the comments.

TEST_CASE("a torque without a tolerance takes the default, and says so", "[record]") {
  const auto window = window_at_ten_percent({Form::Nominal, 80.0, 0.0, kNewtonMetre});
  CHECK(window.low == Torque::newton_metres(72.0));  // 80 - 8
  CHECK(window.nominal == Torque::newton_metres(80.0));
  CHECK(window.high == Torque::newton_metres(88.0));  // 80 + 8
  CHECK(window.assumed);
}

TEST_CASE("a stated tolerance is taken as stated", "[record]") {
  const auto percent = window_at_ten_percent({Form::Percent, 80.0, 5.0, kNewtonMetre});
  CHECK(percent.low == Torque::newton_metres(76.0));  // 80 - 4
  CHECK(percent.nominal == Torque::newton_metres(80.0));
  CHECK(percent.high == Torque::newton_metres(84.0));  // 80 + 4
  CHECK_FALSE(percent.assumed);

  const auto amount = window_at_ten_percent({Form::PlusMinus, 95.0, 5.0, kNewtonMetre});
  CHECK(amount.low == Torque::newton_metres(90.0));
  CHECK(amount.nominal == Torque::newton_metres(95.0));
  CHECK(amount.high == Torque::newton_metres(100.0));
  CHECK_FALSE(amount.assumed);

  const auto range = window_at_ten_percent({Form::Range, 90.0, 100.0, kNewtonMetre});
  CHECK(range.low == Torque::newton_metres(90.0));
  CHECK(range.nominal == Torque::newton_metres(95.0));
  CHECK(range.high == Torque::newton_metres(100.0));
  CHECK_FALSE(range.assumed);
}

TEST_CASE("a minimum has no upper limit and a maximum no lower one", "[record]") {
  const auto minimum = window_at_ten_percent({Form::Minimum, 90.0, 0.0, kNewtonMetre});
  CHECK(minimum.low == Torque::newton_metres(90.0));
  CHECK_FALSE(minimum.nominal.has_value());
  CHECK_FALSE(minimum.high.has_value());
  CHECK_FALSE(minimum.assumed);

  const auto maximum = window_at_ten_percent({Form::Maximum, 12.0, 0.0, kNewtonMetre});
  CHECK_FALSE(maximum.low.has_value());
  CHECK_FALSE(maximum.nominal.has_value());
  CHECK(maximum.high == Torque::newton_metres(12.0));
  CHECK_FALSE(maximum.assumed);
}

TEST_CASE("a window is in torques, whatever the unit of its source", "[record]") {
  // 160 in·lbf ±5%: 152 and 168 in·lbf; 1 in·lbf = 0.1129848290276167 N·m.
  const auto window =
      window_at_ten_percent({Form::Percent, 160.0, 5.0, TorqueUnit::InchPoundForce});
  CHECK_THAT(window.low.value().in_newton_metres(), WithinRel(17.17369401219774, 1e-14));
  CHECK_THAT(window.high.value().in_newton_metres(), WithinRel(18.98145127663961, 1e-14));
}

TEST_CASE("the final torque is the last one reached by torque alone", "[record]") {
  CHECK(final_of("80 N·m") == "80 N·m");
  CHECK(final_of("40 N·m, 60 N·m, 95 ±5 N·m") == "95 ±5 N·m");
  CHECK(final_of("80 N·m ±5%, repeat 80 N·m") == "80 N·m ±5%");
  CHECK(final_of("40 N·m, loosen, 30 N·m") == "30 N·m");
}

TEST_CASE("after an angle no torque says what the fastener holds", "[record]") {
  CHECK(final_of("60 N·m, +60°") == "-");
  CHECK(final_of("40 N·m, loosen, 40 N·m, +90°") == "-");
  CHECK(final_of("61 N·m, +90°, min 122 N·m") == "-");
  CHECK(final_of("61 N·m, +90°, repeat 61 N·m") == "-");
}

TEST_CASE("a loosened fastener is at no torque, and starts afresh", "[record]") {
  CHECK(final_of("40 N·m, loosen 60°") == "-");
  CHECK(final_of("40 N·m, loosen") == "-");
  CHECK(final_of("40 N·m, +90°, loosen, 30 N·m") == "30 N·m");
  CHECK(final_of("40 N·m, +90°, +90°, loosen 180°, 30 N·m") == "30 N·m");
  CHECK(final_of("61 N·m, +90°, new bolts, 30 N·m") == "30 N·m");
  // Loosened by less than it was turned: it may still stand above the torque.
  CHECK(final_of("40 N·m, +90°, loosen 45°, 30 N·m") == "-");
  // What was loosened beyond the start does not make up for a later angle.
  CHECK(final_of("40 N·m, loosen 360°, 40 N·m, +90°, min 60 N·m") == "-");
}

TEST_CASE("an angle step is seen wherever it stands", "[record]") {
  CHECK_FALSE(has_angle_step(read_specification("40 N·m, loosen 90°, 80 N·m")));
  CHECK(has_angle_step(read_specification("60 N·m, +60°")));
  CHECK(has_angle_step(read_specification("40 N·m, +90°, loosen, 40 N·m")));
}

}  // namespace specification_test
