#include "finding/test_simulation.h"
#include "support/catch.h"

namespace coverage_test {

namespace {

// How many of 2,000 tests of this way, a small and seeded part of
// tests/benchmark/coverage_benchmark.cpp, are held by U, and how many would be by a share of it.
struct Held {
  int by_all = 0;
  int by_six_tenths = 0;
  int tightened = 0;
  bool is_bound = false;
};

constexpr int kTests = 2'000;

Held held(Reading reading) {
  constexpr std::uint64_t kSeed = 1;
  Held held;
  int counted = 0;
  for (std::uint64_t number = 0; counted < kTests; ++number) {
    const auto test = simulate_test(reading, kSeed, number);
    if (!test.counts) continue;
    ++counted;
    held.is_bound = test.is_bound;
    if (test.covered) ++held.by_all;
    if (test.needed <= 0.6) ++held.by_six_tenths;
    if (test.tightened_covered) ++held.tightened;
  }
  return held;
}

}  // namespace

TEST_CASE("the true torque lies inside ± U in 95 of 100 simulated tests", "[finding][slow]") {
  for (const auto reading : kReadings) {
    INFO(name_of(reading));
    const auto tests = held(reading);
    CHECK(tests.by_all >= 0.95 * kTests);
    if (tests.is_bound) continue;
    CHECK(tests.tightened >= 0.95 * kTests);
    // A U that is too small by that much is seen.
    CHECK(tests.by_six_tenths < 0.95 * kTests);
  }
}

}  // namespace coverage_test
