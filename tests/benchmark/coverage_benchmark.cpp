#include <fmt/format.h>

#include <cstdlib>

#include "finding/test_simulation.h"

// Prints, for each way of reading a test, in how many of 100,000 simulated tests the true torque
// lies inside ± U, and what was tightened inside the estimate of that. What is assumed stands in
// tests/finding/test_simulation.h.
//   coverage_benchmark [SEED]
int main(int count, char** words) {
  constexpr int kTests = 100'000;
  const std::uint64_t seed = count > 1 ? std::strtoull(words[1], nullptr, 10) : 1;
  fmt::print("seed {}, {} tests for each way of reading\n", seed, kTests);
  fmt::print("{:<28}{:>16}{:>20}{:>18}\n", "way of reading", "torque in ±U", "tightened-to in ±U",
             "mean U");
  for (const auto reading : kReadings) {
    int counted = 0;
    int covered = 0;
    int tightened = 0;
    double relative = 0.0;
    for (std::uint64_t number = 0; counted < kTests; ++number) {
      const auto test = simulate_test(reading, seed, number);
      if (!test.counts) continue;
      ++counted;
      covered += test.covered ? 1 : 0;
      tightened += test.tightened_covered ? 1 : 0;
      relative += test.relative;
    }
    fmt::print("{:<28}{:>14.2f} %{:>18.2f} %{:>16.1f} %\n", name_of(reading),
               100.0 * covered / kTests, 100.0 * tightened / kTests, 100.0 * relative / kTests);
  }
}
