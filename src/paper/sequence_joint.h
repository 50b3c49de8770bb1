#pragma once

#include <span>

#include "paper/sequence_page.h"
#include "words/before_joint.h"

namespace paper {

// What stands on the page of one joint.
struct SequenceJoint {
  std::size_t turn = 0;  // among the joints, from 1
  const plan::PlannedJoint& planned;
  std::span<const progress::Step> steps;     // its own, in the order of the plan
  std::vector<words::Condition> conditions;  // what has to be so before it
};

// A page for one joint: what has to be so before it (holds, hold points, new fasteners, counted
// items), its map with the tightening order drawn on it, for each pass target, wrench, setting and
// a box to tick for every position in its turn, and what comes after the last of them.
void write_sequence_joint(Markup& page, const SequenceJoint& joint, const SequenceContent& content);

}  // namespace paper
