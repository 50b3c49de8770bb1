#include "fastener/thread.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "fastener/standard_threads.h"
#include "fastener/thread_text.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using failure::InputError;
using quantity::write_exact;
using quantity::write_rounded;

constexpr double kSmallestDiameterMm = 1.6;
constexpr double kLargestDiameterMm = 64.0;
constexpr double kFinestPitchMm = 0.2;
constexpr double kCoarsestShare = 0.25;  // of the diameter

ThreadSeries metric_series(double diameter_mm, double pitch_mm) {
  const auto* size = find_metric_size(diameter_mm);
  if (size == nullptr) return ThreadSeries::MetricOther;
  if (size->coarse_mm == pitch_mm) return ThreadSeries::MetricCoarse;
  return std::ranges::find(size->fine_mm, pitch_mm) != size->fine_mm.end()
             ? ThreadSeries::MetricFine
             : ThreadSeries::MetricOther;
}

ThreadSeries unified_series(const UnifiedSize& size, double threads_per_inch) {
  if (size.unc_per_inch == threads_per_inch) return ThreadSeries::Unc;
  if (size.unf_per_inch == threads_per_inch) return ThreadSeries::Unf;
  if (size.eight_un && threads_per_inch == 8.0) return ThreadSeries::EightUn;
  return ThreadSeries::UnifiedOther;
}

// "ISO 261 lists 1.5, 1.25, 1, 0.75 mm"
std::string listed_pitches(const MetricSize& size) {
  std::string pitches;
  const auto add = [&](double pitch_mm) {
    if (pitch_mm == 0.0) return;
    if (!pitches.empty()) pitches += ", ";
    pitches += write_exact(pitch_mm);
  };
  add(size.coarse_mm);
  for (const double pitch_mm : size.fine_mm) add(pitch_mm);
  return fmt::format("ISO 261 lists {} mm", pitches);
}

}  // namespace

Thread Thread::metric(double diameter_mm, double pitch_mm, Hand hand) {
  if (!(diameter_mm >= kSmallestDiameterMm && diameter_mm <= kLargestDiameterMm)) {
    throw InputError(fmt::format("M{}: expected a diameter from {} to {} mm, such as M10",
                                 write_exact(diameter_mm), kSmallestDiameterMm,
                                 kLargestDiameterMm));
  }
  if (!(pitch_mm >= kFinestPitchMm && pitch_mm <= diameter_mm * kCoarsestShare)) {
    const auto* size = find_metric_size(diameter_mm);
    throw InputError(fmt::format(
        "M{}x{}: expected a pitch from {} to {} mm on this diameter ({}); a bolt's length is no "
        "part of its thread",
        write_exact(diameter_mm), write_exact(pitch_mm), kFinestPitchMm,
        write_rounded(diameter_mm * kCoarsestShare),
        size != nullptr ? listed_pitches(*size) : "ISO 261 does not list this diameter"));
  }
  return {quantity::Length::millimetres(diameter_mm), quantity::Length::millimetres(pitch_mm),
          metric_series(diameter_mm, pitch_mm), hand, std::nullopt};
}

Thread Thread::unified(double diameter_in, double threads_per_inch, Hand hand) {
  const auto* size = find_unified_size(diameter_in);
  if (size == nullptr) {
    throw InputError(fmt::format(
        "{} in is no unified thread size; expected #0 to #12 or 1/4 to 4, such as 3/8-16",
        write_rounded(diameter_in)));
  }
  const double fewest = 1.0 / (size->diameter_in * kCoarsestShare);
  const double most = 25.4 / kFinestPitchMm;
  if (!(threads_per_inch >= fewest && threads_per_inch <= most)) {
    throw InputError(fmt::format(
        "{0}-{1}: expected {2} to {3} threads per inch on this size, such as {0}-{4}; a bolt's "
        "length is no part of its thread",
        size->name, write_rounded(threads_per_inch), write_rounded(fewest), write_rounded(most),
        write_exact(size->unc_per_inch > 0.0   ? size->unc_per_inch
                    : size->unf_per_inch > 0.0 ? size->unf_per_inch
                                               : 12.0)));
  }
  return {quantity::Length::inches(size->diameter_in),
          quantity::Length::inches(1.0 / threads_per_inch), unified_series(*size, threads_per_inch),
          hand, threads_per_inch};
}

std::optional<std::string> Thread::note() const {
  if (series_ == ThreadSeries::MetricOther) {
    const auto* size = find_metric_size(diameter_.in_millimetres());
    return fmt::format(
        "{} is no ISO 261 thread ({}); measure it again with a thread gauge", write_exact(*this),
        size != nullptr ? listed_pitches(*size) : std::string("which does not list this diameter"));
  }
  if (series_ == ThreadSeries::UnifiedOther) {
    return fmt::format(
        "{} is neither UNC, UNF nor 8UN; measure it again with a thread gauge and a rule",
        write_exact(*this));
  }
  return std::nullopt;
}

}  // namespace fastener
