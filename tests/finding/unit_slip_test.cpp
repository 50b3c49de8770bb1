#include "finding/unit_slip.h"

#include "support/catch.h"

namespace unit_slip_test {

TEST_CASE("a ratio that a confusion of units gives is recognised", "[finding]") {
  // Ratios of exact unit definitions (units.csv): 1.3558, 0.7376, 12, 0.0833, 8.8507, 0.11298,
  // 9.80665, 0.10197, 7.2330, 0.13825.
  const auto slip_at = [](double ratio) {
    const auto slip = finding::unit_slip(ratio);
    REQUIRE(slip.has_value());
    return slip->meant + " taken in " + slip->taken;
  };
  CHECK(slip_at(1.3558) == "N·m taken in ft·lbf");
  CHECK(slip_at(0.7376) == "ft·lbf taken in N·m");
  CHECK(slip_at(12.0) == "in·lbf taken in ft·lbf");
  CHECK(slip_at(0.0833) == "ft·lbf taken in in·lbf");
  CHECK(slip_at(8.8507) == "in·lbf taken in N·m");
  CHECK(slip_at(0.11298) == "N·m taken in in·lbf");
  CHECK(slip_at(9.80665) == "N·m taken in kgf·m");
  CHECK(slip_at(0.10197) == "kgf·m taken in N·m");
  CHECK(slip_at(7.2330) == "ft·lbf taken in kgf·m");
  CHECK(slip_at(0.13825) == "kgf·m taken in ft·lbf");
}

TEST_CASE("a ratio that no confusion of units gives is left alone", "[finding]") {
  for (const double ratio : {1.0, 0.9, 1.2, 0.5, 2.0, 5.0, 20.0, 0.0, -1.0}) {
    INFO(ratio);
    CHECK_FALSE(finding::unit_slip(ratio).has_value());
  }
}

}  // namespace unit_slip_test
