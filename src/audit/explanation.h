#pragma once

#include <map>

#include "audit/rule.h"
#include "audit/wrench_pattern.h"

namespace audit {

// Adds to a deviation about a found torque why it may be so: what its siblings, the ratio to the
// specification, the feel at breaking loose, the condition, the wrench and the fastener itself say
// for each cause. A cause for which the logbook holds no fact is not named, and none is called
// certain. The likeliest first; among equals the one that rests on this very fastener.
class Explainer {
 public:
  // What the findings of each wrench have in common over the whole job.
  explicit Explainer(const Case& subject);

  // The deviation is about one position of this joint, or about the joint.
  void explain(const JointCase& at, Deviation& deviation) const;

 private:
  std::map<const record::Wrench*, WrenchPattern> wrench_patterns_;
};

}  // namespace audit
