#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace fastener {

// Like measurements of one thing: torques of the bolts of a joint, nut factors of repeated tests.
struct Sample {
  std::size_t count = 0;
  double mean = 0.0;
  double deviation = 0.0;  // s, with count - 1; 0 for a single value
};

// At least one value.
[[nodiscard]] Sample sample_of(std::span<const double> values);

// Half the width of the 95 % confidence interval of the mean: t(n - 1) s/√n. Nothing for fewer than
// two values.
[[nodiscard]] std::optional<double> mean_half_width(const Sample& sample);

// The factor k with which mean ± k s holds `coverage` of all like things with `confidence`:
//   k = z((1 + coverage)/2) √((n - 1)(1 + 1/n)/χ²(1 - confidence, n - 1))
// Source: Howe's approximation, NIST/SEMATECH e-Handbook of Statistical Methods 7.2.6.3 (from
// memory). It is up to 1 % above the exact factor at n = 4 and closer beyond for a coverage of 90
// and 95 %. n of at least two; shares between 0 and 1.
[[nodiscard]] double tolerance_factor(std::size_t count, double coverage, double confidence);

}  // namespace fastener
