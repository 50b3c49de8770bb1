#pragma once

#include <span>

#include "paper/sequence_page.h"
#include "plan/renewal_list.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"

namespace paper {

// What stands on the page of one joint.
struct SequenceJoint {
  std::size_t turn = 0;  // among the joints, from 1
  const plan::PlannedJoint& planned;
  std::span<const progress::Step> steps;        // its own, in the order of the plan
  std::vector<const plan::Renewing*> renewals;  // positions that get, or may need, a new fastener
  std::span<const progress::HoldPointState> hold_points;  // of the whole job, as is `items`
  std::span<const progress::ItemCount> items;
};

// A page for one joint: what has to be so before it (holds, hold points, new fasteners, counted
// items), its map with the tightening order drawn on it, for each pass target, wrench, setting and
// a box to tick for every position in its turn, and what comes after the last of them.
void write_sequence_joint(Markup& page, const SequenceJoint& joint, const SequenceContent& content);

}  // namespace paper
