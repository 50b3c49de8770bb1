#include "fastener/turn_of_nut.h"

namespace fastener {

quantity::Force preload_change(const Thread& thread, const JointStiffness& joint,
                               quantity::Angle turn) {
  return joint.against_nut_travel() * (thread.pitch() * (turn.in_degrees() / 360.0));
}

}  // namespace fastener
