#include "fastener/turn_of_nut.h"

namespace fastener {

quantity::Force preload_change(const Thread& thread, const JointStiffness& joint,
                               quantity::Angle turn) {
  return joint.against_nut_travel() * (thread.pitch() * (turn.in_degrees() / 360.0));
}

quantity::Angle turn_for_preload(const Thread& thread, const JointStiffness& joint,
                                 quantity::Force preload) {
  const auto whole_turn = joint.against_nut_travel() * thread.pitch();
  return quantity::Angle::degrees(360.0 * (preload / whole_turn));
}

}  // namespace fastener
