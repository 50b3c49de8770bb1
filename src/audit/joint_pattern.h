#pragma once

#include <optional>
#include <vector>

#include "finding/outlier.h"
#include "finding/survey.h"

namespace audit {

// How far two findings of one joint may lie apart and still be called alike: common practice, no
// source.
inline constexpr double kAlike = 0.10;

// Findings of one joint that can be held against each other, on one scale: the clamping torque in
// N·m where all have one specification (or none), else their share of what each is specified to.
struct Siblings {
  std::vector<const finding::PositionState*> found;  // by position, rising; never empty
  std::vector<double> values;                        // of each
  bool are_shares = false;
  double median = 0.0;
  // Those that stand apart beyond their uncertainty, by the test of finding/outlier.h; `index` is
  // in `found`.
  std::vector<finding::Outlier> apart;
};

// What the findings of one joint have in common, from its latest finding of every position that
// has an estimate and is some evidence.
struct JointPattern {
  std::vector<const finding::PositionState*> found;  // by position, rising
  // Every one of `found` is in one of them: one for most joints. Of a joint whose positions differ
  // in their specification those with a share come together, and the others by what is specified.
  std::vector<Siblings> siblings;
  std::optional<double> median_ratio;  // found over specified; nothing where none has a ratio
  int within = 0;                      // how many are within the tolerance
};

// What the joint holds names a gasket, the one part that relaxes under a bolt that did not turn.
[[nodiscard]] bool speaks_of_gasket(const record::Joint& joint);

[[nodiscard]] JointPattern pattern_of(const finding::JointState& joint);

// Those that the finding of this position is held against, itself among them; nothing where it is
// not in the pattern.
[[nodiscard]] const Siblings* siblings_of(const JointPattern& pattern,
                                          const finding::PositionState& position);

// How the finding of this position, which is one of them, lies to their median.
[[nodiscard]] double share_of_median(const Siblings& siblings,
                                     const finding::PositionState& position);

// All findings, at least three, lie outside the tolerance on one side by one ratio, give or take
// kAlike: a matter of the joint and not of one fastener.
[[nodiscard]] bool is_off_by_one_ratio(const JointPattern& pattern);

}  // namespace audit
