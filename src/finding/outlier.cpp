#include "finding/outlier.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace finding {
namespace {

std::vector<double> distances_from(double middle, const std::vector<double>& values) {
  std::vector<double> distances;
  distances.reserve(values.size());
  for (const double value : values) distances.push_back(std::fabs(value - middle));
  return distances;
}

std::vector<Outlier> by_score(const std::vector<double>& values) {
  std::vector<Outlier> found;
  const auto scores = modified_z_scores(values);
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (std::fabs(scores[i]) > kScoreLimit) {
      found.push_back({i, OutlierTest::ModifiedZScore, scores[i]});
    }
  }
  return found;
}

std::vector<Outlier> by_share(const std::vector<double>& values) {
  std::vector<Outlier> found;
  const double middle = median(values);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double share = values[i] / middle - 1.0;
    if (std::fabs(share) > kShareLimit) found.push_back({i, OutlierTest::TwentyPercent, share});
  }
  if (found.size() > 1) found.clear();
  return found;
}

}  // namespace

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*std::max_element(values.begin(), middle) + *middle) / 2.0;
}

std::vector<double> modified_z_scores(const std::vector<double>& values) {
  const double middle = median(values);
  const auto distances = distances_from(middle, values);
  double deviation = median(distances) / 0.6745;
  if (deviation == 0.0) {
    const double sum = std::accumulate(distances.begin(), distances.end(), 0.0);
    deviation = 1.253314 * sum / static_cast<double>(distances.size());
  }
  std::vector<double> scores;
  scores.reserve(values.size());
  for (const double value : values) {
    scores.push_back(deviation == 0.0 ? 0.0 : (value - middle) / deviation);
  }
  return scores;
}

std::vector<Outlier> outliers(const std::vector<double>& values) {
  if (values.size() >= kFewestForScore) return by_score(values);
  if (values.size() >= kFewestForShare) return by_share(values);
  return {};
}

}  // namespace finding
