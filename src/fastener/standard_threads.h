#pragma once

#include <array>
#include <string_view>

namespace fastener {

// What the thread standards list, as tables. Sources: ISO 261:1998 Table 2 (metric diameters and
// pitches, M1.6 to M64) and ASME B1.1-2003 Table 1 (unified sizes), both from memory; the coarse
// and fine pitches from M3 to M39 and #4 to 1-1/2 in were checked against published tables.

// One nominal diameter of ISO 261, in millimetres.
struct MetricSize {
  double diameter_mm = 0.0;
  double coarse_mm = 0.0;           // 0 where the standard gives no coarse pitch
  std::array<double, 4> fine_mm{};  // coarsest first, 0 where there are fewer
};

// One nominal size of the unified series, in inches and threads per inch.
struct UnifiedSize {
  std::string_view name;  // "#10", "3/8", "1-1/8"
  double diameter_in = 0.0;
  double unc_per_inch = 0.0;  // 0 where the series has none
  double unf_per_inch = 0.0;
  bool eight_un = false;  // whether 8UN is listed, with eight threads per inch
};

// The entry for exactly this diameter, or nothing.
[[nodiscard]] const MetricSize* find_metric_size(double diameter_mm);

// The entry of this name, or of this diameter to half a thousandth of an inch, or nothing.
[[nodiscard]] const UnifiedSize* find_unified_size(std::string_view name);
[[nodiscard]] const UnifiedSize* find_unified_size(double diameter_in);

}  // namespace fastener
