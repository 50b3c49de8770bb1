#include "audit/joint_pattern.h"

#include <algorithm>
#include <cmath>

namespace audit {
namespace {

using finding::Finding;
using finding::Verdict;

bool is_evidence(const Finding& finding) {
  return finding.torque.best && finding.graded.grade != finding::Grade::X;
}

}  // namespace

double clamping_torque_nm(const Finding& finding) {
  const auto& prevailing = finding.entry->content.prevailing;
  return finding.torque.best->in_newton_metres() -
         (prevailing ? prevailing->torque().in_newton_metres() : 0.0);
}

JointPattern pattern_of(const finding::JointState& joint) {
  JointPattern pattern;
  std::vector<double> torques;
  std::vector<double> ratios;
  for (const auto& position : joint.positions) {
    const auto* finding = position.finding();
    if (finding == nullptr || !is_evidence(*finding)) continue;
    pattern.found.push_back(&position);
    torques.push_back(clamping_torque_nm(*finding));
    if (finding->ratio) ratios.push_back(*finding->ratio);
    if (finding->verdict == Verdict::Within) ++pattern.within;
  }
  if (torques.empty()) return pattern;
  pattern.median_torque_nm = finding::median(torques);
  if (!ratios.empty()) pattern.median_ratio = finding::median(ratios);
  for (const auto& outlier : finding::outliers(torques)) {
    // Findings come in the steps of a wrench, so that the spread among many equal ones says little:
    // what the uncertainty explains is not apart.
    const auto& finding = *pattern.found[outlier.index]->finding();
    const double off = std::fabs(torques[outlier.index] - *pattern.median_torque_nm);
    if (off > finding.torque.budget.expanded().in_newton_metres()) pattern.apart.push_back(outlier);
  }
  return pattern;
}

bool is_off_by_one_ratio(const JointPattern& pattern) {
  if (pattern.found.size() < 3 || !pattern.median_ratio) return false;
  const auto verdict = pattern.found.front()->finding()->verdict;
  if (verdict != Verdict::Low && verdict != Verdict::High) return false;
  return std::ranges::all_of(pattern.found, [&](const auto* position) {
    const auto& finding = *position->finding();
    return finding.verdict == verdict && finding.ratio &&
           std::fabs(*finding.ratio / *pattern.median_ratio - 1.0) <= kAlike;
  });
}

}  // namespace audit
