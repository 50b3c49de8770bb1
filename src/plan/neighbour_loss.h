#pragma once

#include <vector>

#include "plan/reassembly_plan.h"
#include "quantity/percent.h"
#include "record/layout.h"

namespace plan {

// How many of the two positions nearest to each are tightened after it, in the order of tightening.
// One where there are only two positions, none for a single one. The nearest by distance, equal
// distances by number.
[[nodiscard]] std::vector<int> later_neighbours(const record::Layout& layout, int count,
                                                const std::vector<int>& order);

// What the fasteners of a joint that share passes have lost to their neighbours when the last of
// them has its final value (fastener/settling.h).
struct NeighbourLoss {
  const PlannedJoint* joint = nullptr;
  std::vector<int> positions;  // that share the passes
  double raised = 1.0;         // by the last rising pass, as a share of the final torque
  bool by_angle = false;       // that pass is an angle; at most all of it, so `raised` is 1
  int most_later = 0;          // neighbours that come later, of the worst
  std::vector<int> worst;      // the positions that have so many
  quantity::Percent lost = quantity::Percent::of_hundred(0.0);  // at most, by the worst
  bool checked = false;                                         // a check round follows
  // At most lost after that round, which raises by what was lost.
  quantity::Percent left = quantity::Percent::of_hundred(0.0);
};

// Of every joint of at least two fasteners that the plan brings to a torque, in its order.
[[nodiscard]] std::vector<NeighbourLoss> neighbour_losses(const ReassemblyPlan& plan);

}  // namespace plan
