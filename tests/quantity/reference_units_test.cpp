#include <cstdio>
#include <map>
#include <sstream>
#include <string>

#include "quantity/torque_unit.h"
#include "support/catch.h"

namespace reference_units_test {

// Torque conversions against the general-purpose unit program "units" (GNU Units, Debian package
// "units"), run live. It prints 15 significant digits at most. A machine without it fails here.

using quantity::TorqueUnit;

namespace {

// The program writes torque as a product of units and knows no "ozf" or "in·lbf".
const std::map<TorqueUnit, std::string> kReferenceNames = {
    {TorqueUnit::NewtonMetre, "newton meter"},
    {TorqueUnit::NewtonCentimetre, "centinewton meter"},
    {TorqueUnit::KilonewtonMetre, "kilonewton meter"},
    {TorqueUnit::FootPoundForce, "lbf ft"},
    {TorqueUnit::InchPoundForce, "lbf inch"},
    {TorqueUnit::KilogramForceMetre, "kgf meter"},
    {TorqueUnit::KilogramForceCentimetre, "kgf centimeter"},
    {TorqueUnit::InchOunceForce, "ounce force inch"},
};

std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string output;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) output += static_cast<char>(c);
  INFO("GNU Units is needed: install the package \"units\"");
  INFO(output);
  REQUIRE(pclose(pipe) == 0);
  return output;
}

}  // namespace

TEST_CASE("every pair of torque units agrees with the reference unit program", "[quantity]") {
  REQUIRE(kReferenceNames.size() == quantity::kTorqueUnits.size());
  // One process for all pairs: it takes them from its standard input, two lines each.
  std::string command = "units --terse --digits 15 <<'END'\n";
  for (const auto from : quantity::kTorqueUnits) {
    for (const auto to : quantity::kTorqueUnits) {
      command += "1 " + kReferenceNames.at(from) + "\n" + kReferenceNames.at(to) + "\n";
    }
  }
  std::istringstream factors(output_of(command + "END\n"));

  for (const auto from : quantity::kTorqueUnits) {
    for (const auto to : quantity::kTorqueUnits) {
      std::string line;
      REQUIRE(std::getline(factors, line));
      INFO(quantity::name_of(from) << " to " << quantity::name_of(to) << ": " << line);
      const double factor = quantity::in_unit(quantity::torque_of(1.0, from), to);
      CHECK_THAT(factor, WithinRel(std::stod(line), 1e-12));
    }
  }
  std::string more;
  CHECK_FALSE(std::getline(factors, more));
}

}  // namespace reference_units_test
