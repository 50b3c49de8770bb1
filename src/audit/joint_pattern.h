#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/outlier.h"
#include "finding/survey.h"

namespace audit {

// How far two findings of one joint may lie apart and still be called alike: common practice, no
// source.
inline constexpr double kAlike = 0.10;

// What the findings of one joint have in common, from its latest finding of every position that
// has an estimate and is some evidence.
struct JointPattern {
  std::vector<const finding::PositionState*> found;  // by position, rising
  std::optional<double> median_torque_nm;            // nothing without findings
  std::optional<double> median_ratio;  // found over specified; nothing where none has a ratio
  int within = 0;                      // how many are within the tolerance
  // Those that stand apart beyond their uncertainty, by the test of finding/outlier.h; `index` is
  // in `found`.
  std::vector<finding::Outlier> apart;
};

[[nodiscard]] JointPattern pattern_of(const finding::JointState& joint);

// The torque of a finding in N·m, without what a locking feature took.
[[nodiscard]] double clamping_torque_nm(const finding::Finding& finding);

// All findings, at least three, lie outside the tolerance on one side by one ratio, give or take
// kAlike: a matter of the joint and not of one fastener.
[[nodiscard]] bool is_off_by_one_ratio(const JointPattern& pattern);

}  // namespace audit
