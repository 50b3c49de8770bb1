#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace finding {

// The middle one of the values, or the mean of the middle two. At least one value.
[[nodiscard]] double median(std::vector<double> values);

// How a value that stands apart from its siblings was told from them.
enum class OutlierTest {
  ModifiedZScore,  // five values or more
  TwentyPercent,   // three or four
};

struct Outlier {
  std::size_t index = 0;  // in the values as given
  OutlierTest test = OutlierTest::ModifiedZScore;
  double score = 0.0;  // the modified z-score, or the share off the median
};

// The least number of values for a modified z-score, and for any test at all.
inline constexpr std::size_t kFewestForScore = 5;
inline constexpr std::size_t kFewestForShare = 3;

// |M| above this marks a potential outlier: B. Iglewicz and D. Hoaglin, How to Detect and Handle
// Outliers, ASQC Basic References in Quality Control vol. 16, 1993 (from memory; the same limit in
// the NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.17, from memory).
inline constexpr double kScoreLimit = 3.5;

// Off the median by more than this share: common practice, no source.
inline constexpr double kShareLimit = 0.20;

// The modified z-scores of Iglewicz and Hoaglin, with x~ the median:
//   M(i) = 0.6745 (x(i) - x~) / MAD       MAD = median of |x(i) - x~|
// 0.6745 is the 75 % point of the standard normal distribution, so that MAD / 0.6745 estimates its
// standard deviation. Where more than half of the values are one and the same, so that MAD is zero,
// the mean absolute deviation takes its place (from memory, as statistics programs do):
//   M(i) = (x(i) - x~) / (1.253314 · mean |x(i) - x~|)      1.253314 = √(π/2)
// All zero where all values are the same. At least one value.
[[nodiscard]] std::vector<double> modified_z_scores(const std::vector<double>& values);

// The values that stand apart: by the score from five values on; three or four are held against
// their median instead, and then only where the others agree within the same share, so that it is
// clear which one it is. Fewer tell nothing. The values are above zero.
[[nodiscard]] std::vector<Outlier> outliers(const std::vector<double>& values);

}  // namespace finding
