#include "record/as_typed_check.h"

#include "failure/failure.h"
#include "support/catch.h"

namespace as_typed_check_test {

using record::check_as_typed;

namespace {

record::Measured test_of(const char* typed, const char* kept) {
  record::Measured measured;
  measured.readings_typed = typed;
  measured.readings = record::read_readings(kept, std::nullopt);
  return measured;
}

}  // namespace

TEST_CASE("readings that are not those that were typed are refused", "[record]") {
  CHECK_NOTHROW(check_as_typed(test_of("60s 70s 80o", "60s 70s 80o")));
  CHECK_NOTHROW(check_as_typed(test_of("60,0 short; 70s 80 on", "60s 70s 80o")));
  CHECK_NOTHROW(check_as_typed(test_of("", "60s 70s 80o")));  // an earlier version kept none
  for (const auto* kept :
       {"60s 70s 13o", "60s 70s 80p", "60s 80o", "60s 70s 80o 90p", "60s6° 70s 80o"}) {
    CHECK_THROWS_AS(check_as_typed(test_of("60s 70s 80o", kept)), failure::InputError);
  }
  CHECK_THROWS_AS(check_as_typed(test_of("eighty", "80o")), failure::InputError);
}

TEST_CASE("readings in mm are held against their radius", "[record]") {
  record::Measured measured;
  measured.readings_typed = "60 short 5 mm, 70o";
  measured.radius_typed = "9 mm";
  measured.readings = record::read_readings("60 short 5 mm, 70o", quantity::Length::millimetres(9));
  CHECK_NOTHROW(check_as_typed(measured));
  measured.radius_typed = "18 mm";
  CHECK_THROWS_AS(check_as_typed(measured), failure::InputError);
}

TEST_CASE("a length, a scale, a percentage and a procedure are held against their text",
          "[record]") {
  record::Joint joint;
  joint.length_typed = "3,5 in";
  joint.length = quantity::Length::millimetres(88.9);
  CHECK_NOTHROW(check_as_typed(joint));
  joint.length = quantity::Length::millimetres(89);
  CHECK_THROWS_AS(check_as_typed(joint), failure::InputError);
  joint.length.reset();
  CHECK_THROWS_AS(check_as_typed(joint), failure::InputError);

  record::Wrench wrench;
  wrench.scale_typed = "20..200 N·m";
  wrench.scale = record::read_scale("20..200 N·m");
  wrench.graduation_typed = "1 N·m";
  wrench.graduation = 1;
  wrench.accuracy_typed = "4%";
  wrench.accuracy = quantity::Percent::of_hundred(4);
  CHECK_NOTHROW(check_as_typed(wrench));
  auto other = wrench;
  other.scale.unit = quantity::TorqueUnit::FootPoundForce;
  CHECK_THROWS_AS(check_as_typed(other), failure::InputError);
  other = wrench;
  other.accuracy = quantity::Percent::of_hundred(1);
  CHECK_THROWS_AS(check_as_typed(other), failure::InputError);

  record::Specified specified;
  specified.typed = "40 N·m, 80 N·m ±5%";
  specified.procedure = record::read_specification("40 N·m, 80 N·m ±5%");
  CHECK_NOTHROW(check_as_typed(specified));
  specified.procedure = record::read_specification("40 N·m, 90 N·m ±5%");
  CHECK_THROWS_AS(check_as_typed(specified), failure::InputError);
}

}  // namespace as_typed_check_test
