#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <vector>

#include "finding/test_simulation.h"

// Prints, for each way of reading a test, in how many of 100,000 simulated tests the true torque
// lies inside ± U, and what was tightened inside the estimate of that. What is assumed stands in
// tests/finding/test_simulation.h. So that a wrong U shows: by how much it could be shrunk before
// it holds fewer than 95 %, and what it would hold at 0.8 and 0.6 of its size. Exit code 1 where
// one holds fewer than 95 %.
//   coverage_benchmark [SEED]
int main(int count, char** words) {
  constexpr std::size_t kTests = 100'000;
  constexpr double kWanted = 95.0;
  const std::uint64_t seed = count > 1 ? std::strtoull(words[1], nullptr, 10) : 1;
  fmt::print("seed {}, {} tests for each way of reading\n", seed, kTests);
  fmt::print("{:<27}{:>13}{:>11}{:>11}{:>14}{:>20}{:>8}\n", "way of reading", "torque in ±U",
             "at 0.8 U", "at 0.6 U", "95 % need", "tightened-to in ±U", "mean U");
  bool all_hold = true;
  for (const auto reading : kReadings) {
    std::vector<double> needed;
    std::size_t covered = 0;
    std::size_t tightened = 0;
    bool is_bound = false;
    double relative = 0.0;
    for (std::uint64_t number = 0; needed.size() < kTests; ++number) {
      const auto test = simulate_test(reading, seed, number);
      if (!test.counts) continue;
      needed.push_back(test.needed);
      is_bound = test.is_bound;
      covered += test.covered ? 1 : 0;
      tightened += test.tightened_covered ? 1 : 0;
      relative += test.relative;
    }
    std::ranges::sort(needed);
    const auto percent = [](std::size_t part) {
      return 100.0 * static_cast<double>(part) / static_cast<double>(kTests);
    };
    const auto held_at = [&](double share) {
      return percent(
          static_cast<std::size_t>(std::ranges::upper_bound(needed, share) - needed.begin()));
    };
    all_hold =
        all_hold && percent(covered) >= kWanted && (is_bound || percent(tightened) >= kWanted);
    fmt::print("{:<27}{:>11.2f} %{:>9.2f} %{:>9.2f} %{:>11.2f} U{:>20}{:>6.1f} %\n",
               name_of(reading), percent(covered), held_at(0.8), held_at(0.6),
               needed[static_cast<std::size_t>(kWanted / 100.0 * static_cast<double>(kTests))],
               is_bound ? std::string("-") : fmt::format("{:.2f} %", percent(tightened)),
               100.0 * relative / static_cast<double>(kTests));
  }
  return all_hold ? 0 : 1;
}
