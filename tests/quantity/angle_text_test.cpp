#include "quantity/angle_text.h"

#include <cmath>
#include <numbers>
#include <string>

#include "quantity/number_text.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/refusal.h"

namespace angle_text_test {

using quantity::Angle;
using quantity::read_angle;
using namespace std::string_view_literals;

TEST_CASE("an angle is read in degrees or turns", "[quantity]") {
  for (const auto* text : {"60°", "60 °", "60º", "60 deg", "60deg.", "60 degrees", "60 DEG",
                           "60,0 Degrees", "1/6 turn", "1/6 Turns", "0060°"}) {
    INFO(text);
    CHECK(read_angle(text) == Angle::degrees(60.0));
  }
  CHECK(read_angle("1/4 turn") == Angle::degrees(90.0));
  CHECK(read_angle("0.5 turns") == Angle::degrees(180.0));
  CHECK(read_angle("0,5 turn") == Angle::degrees(180.0));
  CHECK(read_angle("1/3 turn") == Angle::degrees(120.0));
  CHECK(read_angle("1 degree") == Angle::degrees(1.0));
  CHECK_THAT(read_angle("180°").in_radians(), WithinRel(std::numbers::pi, 1e-15));
}

TEST_CASE("what follows an angle is handed back, and a bare number is none", "[quantity]") {
  const auto leading = quantity::read_leading_angle("60° (55-65)", "60° (55-65)");
  REQUIRE(leading.has_value());
  CHECK(leading->rest == "(55-65)");
  CHECK_FALSE(quantity::read_leading_angle("60", "60").has_value());
  CHECK_FALSE(quantity::read_leading_angle("60 N·m", "60 N·m").has_value());
}

TEST_CASE("what is no angle is refused", "[quantity]") {
  for (const auto text : {""sv,          " "sv,
                          "60"sv,        "°"sv,
                          "turn"sv,      "-60°"sv,
                          "\u221260°"sv, "+60°"sv,
                          "nan°"sv,      "inf°"sv,
                          "1e400°"sv,    "1e2°"sv,
                          "1/0 turn"sv,  "1/ turn"sv,
                          "/4 turn"sv,   "1/4"sv,
                          "60° 5"sv,     "60 degx"sv,
                          "60 rad"sv,    "60°\0"sv,
                          "6\0000°"sv,   "1,234°"sv,
                          "1 234°"sv,    "1'234°"sv,
                          "1.234,5°"sv,  "1234567890123456789012345678901234567890°"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal_of([&] { return read_angle(text); }).empty());
  }
  CHECK_THAT(refusal_of([] { return read_angle("60"); }), ContainsSubstring("1/4 turn"));
  CHECK_THAT(refusal_of([] { return read_angle("1/0 turn"); }), ContainsSubstring("over zero"));
}

TEST_CASE("an exactly written angle reads back", "[quantity]") {
  CHECK(quantity::write_exact(Angle::degrees(60.0)) == "60°");
  holds_always("the same angle comes back", [] {
    const auto mantissa = *rc::gen::inRange<std::int64_t>(0, std::int64_t{1} << 53);
    const auto angle =
        Angle::degrees(std::ldexp(static_cast<double>(mantissa), *rc::gen::inRange(-60, 1)));
    RC_ASSERT(read_angle(quantity::write_exact(angle)) == angle);
  });
}

}  // namespace angle_text_test
