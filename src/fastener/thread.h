#pragma once

#include <optional>
#include <string>

#include "quantity/length.h"

namespace fastener {

enum class ThreadSeries {
  MetricCoarse,  // ISO 261 coarse pitch
  MetricFine,    // ISO 261 fine pitch
  MetricOther,   // a diameter or pitch that ISO 261 does not list
  Unc,           // ASME B1.1 coarse
  Unf,           // ASME B1.1 fine
  EightUn,       // ASME B1.1 with eight threads per inch at any diameter
  UnifiedOther,  // another number of threads per inch
};

enum class Hand { Right, Left };

// A screw thread of 60 degree profile: metric or unified. Every thread that exists as a value can
// be cut: its pitch is at least 0.2 mm and at most a quarter of its diameter. The standards list
// nothing coarser (M1.6 x 0.35 to M64 x 6, #0-80 to 4-4), nor finer than 0.2 mm.
class Thread {
 public:
  // Diameter from 1.6 mm to 64 mm; InputError otherwise or for an impossible pitch.
  [[nodiscard]] static Thread metric(double diameter_mm, double pitch_mm, Hand hand = Hand::Right);

  // Diameter one of ASME B1.1, #0 (0.06 in) to 4 in; InputError otherwise or for an impossible
  // number of threads.
  [[nodiscard]] static Thread unified(double diameter_in, double threads_per_inch,
                                      Hand hand = Hand::Right);

  [[nodiscard]] quantity::Length diameter() const { return diameter_; }  // nominal (major)
  [[nodiscard]] quantity::Length pitch() const { return pitch_; }
  [[nodiscard]] ThreadSeries series() const { return series_; }
  [[nodiscard]] Hand hand() const { return hand_; }
  [[nodiscard]] bool is_metric() const { return !threads_per_inch_; }
  // Unified threads only; 4.5 at 2 and 2-1/4 UNC.
  [[nodiscard]] std::optional<double> threads_per_inch() const { return threads_per_inch_; }

  // What a reader should know about a thread that no standard series lists; nothing otherwise.
  [[nodiscard]] std::optional<std::string> note() const;

  bool operator==(const Thread&) const = default;

 private:
  Thread(quantity::Length diameter, quantity::Length pitch, ThreadSeries series, Hand hand,
         std::optional<double> threads_per_inch)
      : diameter_(diameter),
        pitch_(pitch),
        series_(series),
        hand_(hand),
        threads_per_inch_(threads_per_inch) {}

  quantity::Length diameter_;
  quantity::Length pitch_;
  ThreadSeries series_;
  Hand hand_;
  std::optional<double> threads_per_inch_;
};

}  // namespace fastener
