#pragma once

#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <numbers>
#include <random>

// Numbers that are the same with every standard library.
class Chance {
 public:
  Chance(std::uint64_t seed, std::uint64_t number) : engine_(seed * 1'000'003 + number) {}

  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11U) * 0x1.0p-53;
  }
  double around(double mean, double deviation) {  // Box and Muller
    const double radius = std::sqrt(-2.0 * std::log(1.0 - between(0.0, 1.0)));
    return mean + deviation * radius * std::cos(2.0 * std::numbers::pi * between(0.0, 1.0));
  }
  double one_of(std::initializer_list<double> values) {
    const auto index = static_cast<std::size_t>(between(0.0, static_cast<double>(values.size())));
    return values.begin()[index];
  }

 private:
  std::mt19937_64 engine_;
};
