#pragma once

#include <cstddef>
#include <optional>

#include "fastener/sample.h"

namespace fastener {

// How a sample of torques stands against the tolerance that they should keep.
struct Tolerance {
  double low = 0.0;
  double high = 0.0;
};

// What the sample shows of all bolts of its kind, with 95 % confidence.
enum class Shown {
  Keeps,   // 95 % of them lie in the tolerance: mean ± k s does (tolerance_factor)
  Misses,  // their mean lies outside it: the whole of its confidence interval does
  Undecided
};

//   Cp = (high - low)/(6 s)          Cpk = min(mean - low, high - mean)/(3 s)
//   lower confidence limit of Cpk = Cpk - 1.96 √(1/(9 n) + Cpk²/(2 (n - 1)))
// Source: the usual indices; the limit after Bissell, as a review of capability indices (Rodriguez,
// Journal of Quality Technology 1992) and a statistics program's manual give it (seen). Values that
// are spread like a normal distribution are assumed.
struct Capability {
  double cp = 0.0;
  double cpk = 0.0;
  double cpk_low = 0.0;
  Shown shown = Shown::Undecided;
  // How many tests in all would decide it if mean and deviation stayed as they are; nothing where
  // it is decided, or where no number up to kMostTests would.
  std::optional<std::size_t> tests_needed;
};

inline constexpr double kCoverage = 0.95;
inline constexpr double kConfidence = 0.95;
inline constexpr std::size_t kMostTests = 200;

// Nothing for fewer than three values, or where all are the same.
[[nodiscard]] std::optional<Capability> capability_of(const Sample& sample,
                                                      const Tolerance& tolerance);

}  // namespace fastener
