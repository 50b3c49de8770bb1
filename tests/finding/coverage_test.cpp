#include "finding/test_simulation.h"
#include "support/catch.h"

namespace coverage_test {

// A small and seeded part of tests/benchmark/coverage_benchmark.cpp.
TEST_CASE("the true torque lies inside ± U in 95 of 100 simulated tests", "[finding][slow]") {
  constexpr std::uint64_t kSeed = 1;
  constexpr int kTests = 2'000;
  for (const auto reading : kReadings) {
    int counted = 0;
    int covered = 0;
    int tightened = 0;
    for (std::uint64_t number = 0; counted < kTests; ++number) {
      const auto test = simulate_test(reading, kSeed, number);
      if (!test.counts) continue;
      ++counted;
      if (test.covered) ++covered;
      if (test.tightened_covered) ++tightened;
    }
    INFO(name_of(reading));
    CHECK(covered >= 0.95 * kTests);
    CHECK(tightened >= 0.95 * kTests);
  }
}

}  // namespace coverage_test
