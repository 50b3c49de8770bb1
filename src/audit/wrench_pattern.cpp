#include "audit/wrench_pattern.h"

#include <cmath>
#include <vector>

#include "audit/joint_pattern.h"
#include "finding/outlier.h"

namespace audit {

std::map<const record::Wrench*, WrenchPattern> wrench_patterns(const finding::Survey& survey) {
  struct Seen {
    std::vector<double> ratios;
    std::size_t joints = 0;
    const finding::JointState* last = nullptr;
  };
  std::map<const record::Wrench*, Seen> seen;
  for (const auto& joint : survey.joints) {
    for (const auto& position : joint.positions) {
      const auto* finding = position.finding();
      if (finding == nullptr || !finding->ratio) continue;
      auto& of_wrench = seen[finding->wrench];
      of_wrench.ratios.push_back(*finding->ratio);
      if (of_wrench.last != &joint) ++of_wrench.joints;
      of_wrench.last = &joint;
    }
  }
  std::map<const record::Wrench*, WrenchPattern> patterns;
  for (const auto& [wrench, of_wrench] : seen) {
    WrenchPattern pattern{of_wrench.ratios.size(), of_wrench.joints,
                          finding::median(of_wrench.ratios), true};
    for (const double ratio : of_wrench.ratios) {
      if (std::fabs(ratio / pattern.median_ratio - 1.0) > kAlike) pattern.is_alike = false;
    }
    patterns[wrench] = pattern;
  }
  return patterns;
}

}  // namespace audit
