#include "record/wrench.h"

#include "failure/failure.h"
#include "support/catch.h"

namespace wrench_test {

using failure::InputError;
using quantity::Torque;
using record::Calibration;
using record::Wrench;

TEST_CASE("a scale is read with both ends and its unit", "[record]") {
  const auto scale = record::read_scale("20..200 N·m");
  CHECK(scale.low == 20.0);
  CHECK(scale.high == 200.0);
  CHECK(record::write_exact(scale) == "20..200 N·m");
  CHECK(record::write_exact(record::read_scale("10-150 ft-lb")) == "10..150 ft·lbf");
  CHECK(record::write_exact(record::read_scale("0 to 2,5 Nm")) == "0..2.5 N·m");
  for (const auto* text : {"", "200 N·m", "20..200", "200..20 N·m", "20..20 N·m", "a..b N·m"}) {
    INFO(text);
    CHECK_THROWS_AS(record::read_scale(text), InputError);
  }
}

TEST_CASE("a scale without a lower limit is usable from a fifth of full scale", "[record]") {
  // Source: wrench_accuracy W043, laboratory procedure: do not use below 20 % of full scale.
  Wrench wrench;
  wrench.scale = record::read_scale("0..200 N·m");
  CHECK(record::least_setting(wrench) == 40.0);
  CHECK_FALSE(record::in_range(wrench, 39.9));
  CHECK(record::in_range(wrench, 40.0));
  CHECK(record::in_range(wrench, 200.0));
  CHECK_FALSE(record::in_range(wrench, 200.1));
  wrench.scale = record::read_scale("20..200 N·m");
  CHECK(record::least_setting(wrench) == 20.0);
}

TEST_CASE("the permissible deviation is the certificate's, else the standard's", "[record]") {
  // Source: ISO 6789-1:2017, 5.1.5 (W006 to W017, from memory; W001, W002 for setting tools seen):
  // by the tool's maximum torque.
  Wrench wrench;
  const auto percent = [&](const char* scale, record::WrenchKind kind) {
    wrench.scale = record::read_scale(scale);
    wrench.kind = kind;
    return record::permissible_deviation(wrench).in_percent();
  };
  using record::WrenchKind;
  CHECK(percent("2..10 N·m", WrenchKind::Setting) == 6.0);
  CHECK(percent("2..10.1 N·m", WrenchKind::Setting) == 4.0);
  CHECK(percent("10..88 in·lbf", WrenchKind::Setting) == 6.0);  // 9.94 N·m
  CHECK(percent("2..10 N·m", WrenchKind::Electronic) == 6.0);
  CHECK(percent("20..200 N·m", WrenchKind::Electronic) == 4.0);
  // Bending bar or dial is not on record: the bar's.
  CHECK(percent("20..200 N·m", WrenchKind::Indicating) == 6.0);
  wrench.accuracy = quantity::Percent::of_hundred(2.0);
  CHECK(record::permissible_deviation(wrench).in_percent() == 2.0);
}

TEST_CASE("a calibration holds to its last day", "[record]") {
  // Source: W031, 12 months.
  Wrench wrench;
  CHECK(record::calibration_on(wrench, record::read_day("2026-01-01")) == Calibration::Unknown);
  wrench.calibrated = record::read_day("2026-03-02");
  CHECK(record::calibration_on(wrench, record::read_day("2026-03-01")) == Calibration::NotYet);
  CHECK(record::calibration_on(wrench, record::read_day("2026-03-02")) == Calibration::Valid);
  CHECK(record::calibration_on(wrench, record::read_day("2027-03-02")) == Calibration::Valid);
  CHECK(record::calibration_on(wrench, record::read_day("2027-03-03")) == Calibration::Expired);
}

TEST_CASE("a calibration that found the wrench too far off says so", "[record]") {
  Wrench wrench;
  wrench.scale = record::read_scale("20..200 N·m");  // ±4 % where no certificate tells
  CHECK_FALSE(record::was_out_of_tolerance(wrench));
  wrench.found_off = quantity::Percent::of_hundred(4.0);
  CHECK_FALSE(record::was_out_of_tolerance(wrench));
  wrench.found_off = quantity::Percent::of_hundred(4.1);
  CHECK(record::was_out_of_tolerance(wrench));
  // A certificate that states more than the standard excuses nothing; one that states less counts.
  wrench.accuracy = quantity::Percent::of_hundred(5.0);
  CHECK(record::was_out_of_tolerance(wrench));
  wrench.found_off = quantity::Percent::of_hundred(3.0);
  CHECK_FALSE(record::was_out_of_tolerance(wrench));
  wrench.accuracy = quantity::Percent::of_hundred(2.0);
  CHECK(record::was_out_of_tolerance(wrench));
  wrench.found_off = quantity::Percent::of_hundred(4.1);
  wrench.accuracy.reset();
  wrench.scale = record::read_scale("2..10 N·m");  // ±6 % up to 10 N·m
  CHECK_FALSE(record::was_out_of_tolerance(wrench));
}

TEST_CASE("graduation and months are read with their limits", "[record]") {
  const auto scale = record::read_scale("20..200 N·m");
  CHECK(record::read_graduation("1 N·m", scale) == 1.0);
  CHECK_THAT(record::read_graduation("1 ft·lbf", scale), WithinRel(1.3558179483314004, 1e-15));
  CHECK_THROWS_AS(record::read_graduation("0 N·m", scale), InputError);
  CHECK_THROWS_AS(record::read_graduation("41 N·m", scale), InputError);
  CHECK_THROWS_AS(record::read_graduation("1", scale), InputError);
  CHECK(record::read_months("12mo") == 12);
  CHECK(record::read_months("2 years") == 24);
  for (const auto* text : {"", "12", "0mo", "1.5mo", "200mo", "12 weeks"}) {
    INFO(text);
    CHECK_THROWS_AS(record::read_months(text), InputError);
  }
}

TEST_CASE("a setting is a mark of the scale or lies between two", "[record]") {
  record::Wrench wrench;
  wrench.scale = {5.0, 25.0, quantity::TorqueUnit::NewtonMetre};
  wrench.graduation = 0.2;
  for (const double mark : {5.0, 5.2, 7.6, 19.8, 25.0}) CHECK(record::on_mark(wrench, mark));
  for (const double between : {5.1, 7.65, 19.9}) CHECK_FALSE(record::on_mark(wrench, between));
  // Marks from the scale's lower end, and a graduation that no decimal writes exactly.
  wrench.graduation = 2.0;
  CHECK(record::on_mark(wrench, 7.0));
  CHECK_FALSE(record::on_mark(wrench, 7.5));
  wrench.graduation = quantity::in_unit(
      quantity::torque_of(1.0, quantity::TorqueUnit::FootPoundForce), wrench.scale.unit);
  CHECK(record::on_mark(wrench, record::scale_mark(wrench, 13)));
}

}  // namespace wrench_test
