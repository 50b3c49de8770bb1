#include "quantity/stated_torque.h"

#include <cmath>
#include <sstream>
#include <string>

#include "quantity/number_text.h"
#include "support/catch.h"
#include "support/comma_locale.h"
#include "support/property.h"
#include "support/refusal.h"

namespace stated_torque_test {

using quantity::read_torque;
using quantity::StatedTorque;
using quantity::TorqueUnit;
using namespace std::string_view_literals;

namespace {

std::string refusal(std::string_view text) {
  return refusal_of([&] { return read_torque(text); });
}

}  // namespace

TEST_CASE("a torque is read however people write it", "[quantity]") {
  const StatedTorque eighty{80.0, TorqueUnit::NewtonMetre};
  for (const auto* text : {"80 N·m", "80N·m", "80 Nm", "80nm", "80 NM", "80 N*m", "80 N-m",
                           "80 N.m", "80 N m", "80 n·M", " 80  N·m ", "80.0 N·m", "80,0 N·m",
                           "80 newton metres", "80\u00A0N·m", "80\u202FN\u00A0m", "080 N⋅m"}) {
    INFO(text);
    CHECK(read_torque(text) == eighty);
  }
  CHECK(read_torque("3,5 Nm") == StatedTorque{3.5, TorqueUnit::NewtonMetre});
  CHECK(read_torque("0,125 N·m") == StatedTorque{0.125, TorqueUnit::NewtonMetre});
  CHECK(read_torque("1.234 N·m") == StatedTorque{1.234, TorqueUnit::NewtonMetre});
  CHECK(read_torque("70ft-lb") == StatedTorque{70.0, TorqueUnit::FootPoundForce});
  CHECK(read_torque("160 IN·LBF") == StatedTorque{160.0, TorqueUnit::InchPoundForce});
  CHECK(read_torque("0 N·m") == StatedTorque{0.0, TorqueUnit::NewtonMetre});
}

TEST_CASE("a torque without a unit is refused with the accepted units", "[quantity]") {
  for (const auto* text : {"85", " 85 ", "3,5", "0"}) {
    const auto message = refusal(text);
    INFO(text);
    CHECK_THAT(message, ContainsSubstring("no unit"));
    for (const auto unit : quantity::kTorqueUnits) {
      CHECK_THAT(message, ContainsSubstring(std::string(quantity::name_of(unit))));
    }
  }
  CHECK_THAT(refusal("85 N"), ContainsSubstring("unit \"N\" is not known"));
  CHECK_THAT(refusal("85 N"), ContainsSubstring(quantity::accepted_torque_units()));
}

TEST_CASE("what is no torque is refused", "[quantity]") {
  for (const auto text : {""sv,
                          " "sv,
                          "\t"sv,
                          "N·m"sv,
                          "nan N·m"sv,
                          "NaN"sv,
                          "inf N·m"sv,
                          "-80 N·m"sv,
                          "\u221280 N·m"sv,
                          "+80 N·m"sv,
                          "1e400 N·m"sv,
                          "1e2 N·m"sv,
                          "80 N·m N·m"sv,
                          "80 80 N·m"sv,
                          "80 N·m\0"sv,
                          "80\0N·m"sv,
                          "80 N\0m"sv,
                          "\0"sv,
                          "80 bar"sv,
                          "80 ft"sv,
                          "80 N·m 60"sv,
                          "80..90 N·m"sv,
                          "80 -N·m"sv,
                          "80 \xff"sv,
                          "1234567890123456789012345678901234567890 N·m"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal(text).empty());
  }
  for (const auto* text : {"1,234 N·m", "1.234,5 N·m", "1,234.5 N·m", "1 234 N·m", "1'234 N·m",
                           "1\u2019234 N·m", "12,345,678 N·m"}) {
    INFO(text);
    CHECK_THAT(refusal(text), ContainsSubstring("thousands"));
  }
}

TEST_CASE("an exactly written torque reads back bit for bit", "[quantity]") {
  CHECK(quantity::write_exact({80.0, TorqueUnit::NewtonMetre}) == "80 N·m");
  CHECK(quantity::write_exact({0.1, TorqueUnit::FootPoundForce}) == "0.1 ft·lbf");
  holds_always("value and unit come back", [] {
    const auto mantissa = *rc::gen::inRange<std::int64_t>(1, std::int64_t{1} << 53);
    const StatedTorque stated{std::ldexp(static_cast<double>(mantissa), *rc::gen::inRange(-70, 3)),
                              *rc::gen::elementOf(std::vector<TorqueUnit>(
                                  quantity::kTorqueUnits.begin(), quantity::kTorqueUnits.end()))};
    RC_ASSERT(read_torque(quantity::write_exact(stated)) == stated);
  });
}

TEST_CASE("a rounded torque is written in the asked unit", "[quantity]") {
  // Worked by hand: 70 · 1.3558179483314 = 94.907256...; 94.907256... · 12 / 1.3558179... = 840.
  const auto seventy = quantity::torque_of(70.0, TorqueUnit::FootPoundForce);
  CHECK(quantity::write_rounded(seventy, TorqueUnit::NewtonMetre) == "94.91 N·m");
  CHECK(quantity::write_rounded(seventy, TorqueUnit::FootPoundForce) == "70 ft·lbf");
  CHECK(quantity::write_rounded(seventy, TorqueUnit::InchPoundForce) == "840 in·lbf");
}

TEST_CASE("readers and writers never look at the locale", "[quantity]") {
  const CommaLocale comma_locale;
  std::ostringstream proof;
  proof << 1234.5;
  REQUIRE(proof.str() == "1.234,5");  // the locale is in force
  if (!comma_locale.c_locale()) {
    WARN("no C locale with a decimal comma is installed: only the C++ global locale was tried");
  }
  CHECK(read_torque("3.5 N·m").value == 3.5);
  CHECK(read_torque("3,5 N·m").value == 3.5);
  CHECK(read_torque("1234.5 N·m").value == 1234.5);
  CHECK(quantity::write_exact({1234.5, TorqueUnit::NewtonMetre}) == "1234.5 N·m");
  CHECK(quantity::write_rounded(1234.5) == "1234");  // a tie goes to the even digit
  CHECK(quantity::write_rounded(3.14159) == "3.142");
  CHECK_THAT(refusal("1.234,5 N·m"), ContainsSubstring("thousands"));
}

TEST_CASE("no bytes make the torque reader do anything but read or refuse", "[quantity]") {
  holds_always("any text gives a torque or an input error", [](const std::string& text) {
    try {
      RC_ASSERT(std::isfinite(read_torque("80" + text).value));
    } catch (const failure::InputError&) {
      RC_SUCCEED();
    }
  });
}

}  // namespace stated_torque_test
