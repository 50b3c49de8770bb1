#include "quantity/torque_unit.h"

#include <type_traits>

#include "quantity/force.h"
#include "quantity/stated_torque.h"
#include "support/catch.h"
#include "support/check_values.h"
#include "support/published.h"

namespace torque_unit_test {

using quantity::Torque;
using quantity::TorqueUnit;

// What must not compile.
static_assert(!std::is_convertible_v<double, Torque>);
static_assert(!std::is_convertible_v<Torque, double>);
template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
static_assert(Addable<Torque, Torque>);
static_assert(!Addable<Torque, quantity::Force>);
static_assert(!Addable<Torque, double>);

TEST_CASE("torque units convert by exact definitions", "[quantity][published]") {
  // Source: units.csv, ratios of exact definitions to 17 digits and the output of a general unit
  // program; NIST SP 811 (2008) Appendix B.8 factors to their printed digits.
  const auto unit_named = [](const std::string& name) {
    const auto unit = quantity::read_torque_unit(name);
    REQUIRE(unit.has_value());
    return *unit;
  };
  int checked = 0;
  for (const auto& row : read_check_values("units.csv")) {
    if (row.at("kind") != "conversion") continue;
    const auto from = unit_named(row.at("from_unit"));
    const auto to = unit_named(row.at("to_unit"));
    const double factor = quantity::in_unit(quantity::torque_of(1.0, from), to);
    INFO(row.at("from_unit") << " to " << row.at("to_unit"));
    CHECK_THAT(factor, WithinRel(std::stod(row.at("factor_17_digits")), 1e-15));
    CHECK_THAT(factor, WithinRel(std::stod(row.at("gnu_units_2_22")), 1e-14));
    if (const auto& printed = row.at("nist_sp811_printed"); !printed.empty()) {
      const auto decimals = printed.size() - printed.find('.') - 1;
      const double half_last_digit = 0.5 * std::pow(10.0, -static_cast<double>(decimals));
      CHECK_PUBLISHED(published_as(row.at("how_known")), factor,
                      WithinAbs(std::stod(printed), half_last_digit));
    }
    ++checked;
  }
  CHECK(checked == 30);
}

TEST_CASE("a torque unit is read however people write it", "[quantity]") {
  const auto all_read_as = [](TorqueUnit unit, std::initializer_list<const char*> spellings) {
    for (const auto* spelling : spellings) {
      INFO(spelling);
      CHECK(quantity::read_torque_unit(spelling) == unit);
    }
  };
  all_read_as(TorqueUnit::NewtonMetre, {"N·m", "Nm", "N-m", "n.m", "NM", "N m", "N*m", "N⋅m",
                                        "newton metres", "Newton-meter"});
  all_read_as(TorqueUnit::NewtonCentimetre, {"cN·m", "cNm", "N·cm", "Ncm"});
  all_read_as(TorqueUnit::KilonewtonMetre, {"kN·m", "kNm", "KN-M"});
  all_read_as(TorqueUnit::FootPoundForce,
              {"ft·lbf", "ft-lb", "lb-ft", "lbf·ft", "ft.lbs", "foot-pounds", "FT LBS", "lbs-ft",
               "ft. lbs.", "ft.-lb.", "ftlb", "pound feet", "lbf*ft", "ft‑lb"});
  all_read_as(TorqueUnit::InchPoundForce, {"in·lbf", "in-lb", "lb-in", "inch-pounds", "in.lbs",
                                           "lbf·in", "in. lb", "INLB", "pound-inches"});
  all_read_as(TorqueUnit::KilogramForceMetre, {"kgf·m", "kg-m", "kgm", "kgf-m", "m·kg"});
  all_read_as(TorqueUnit::KilogramForceCentimetre, {"kgf·cm", "kg-cm", "kgcm"});
  all_read_as(TorqueUnit::InchOunceForce, {"ozf·in", "oz-in", "in-oz", "ozin"});
}

TEST_CASE("what is no torque unit is not taken for one", "[quantity]") {
  for (const auto* text : {"", " ", "N", "m", "lb", "ft", "mNm", "Nmm", "N/m", "ft/lb", "N··m",
                           "·Nm", "Nm·", "bar", "Nm2", "kWh", "psi", "N.m·", "--"}) {
    INFO(text);
    CHECK_FALSE(quantity::read_torque_unit(text).has_value());
  }
}

}  // namespace torque_unit_test
