#include "fastener/capability.h"

#include <algorithm>
#include <cmath>

namespace fastener {
namespace {

Shown shown_by(const Sample& sample, const Tolerance& tolerance) {
  const double reach = tolerance_factor(sample.count, kCoverage, kConfidence) * sample.deviation;
  if (sample.mean - reach >= tolerance.low && sample.mean + reach <= tolerance.high) {
    return Shown::Keeps;
  }
  const double of_mean = *mean_half_width(sample);
  const bool outside =
      sample.mean + of_mean < tolerance.low || sample.mean - of_mean > tolerance.high;
  return outside ? Shown::Misses : Shown::Undecided;
}

std::optional<std::size_t> tests_that_decide(Sample sample, const Tolerance& tolerance) {
  while (++sample.count <= kMostTests) {
    if (shown_by(sample, tolerance) != Shown::Undecided) return sample.count;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Capability> capability_of(const Sample& sample, const Tolerance& tolerance) {
  constexpr std::size_t kFewest = 3;
  if (sample.count < kFewest || sample.deviation <= 0.0) return std::nullopt;
  const auto n = static_cast<double>(sample.count);
  const double cpk = std::min(sample.mean - tolerance.low, tolerance.high - sample.mean) /
                     (3.0 * sample.deviation);
  const double cpk_error = std::sqrt(1.0 / (9.0 * n) + cpk * cpk / (2.0 * (n - 1.0)));
  Capability result{(tolerance.high - tolerance.low) / (6.0 * sample.deviation), cpk,
                    cpk - 1.96 * cpk_error, shown_by(sample, tolerance), std::nullopt};
  if (result.shown == Shown::Undecided) result.tests_needed = tests_that_decide(sample, tolerance);
  return result;
}

}  // namespace fastener
