#pragma once

#include <string>

#include "finding/survey.h"
#include "paper/joint_map.h"
#include "paper/markup.h"

namespace paper {

// What stands at the top of a joint's part of a page, besides what the joint is.
struct JointTop {
  std::string turn = {};     // "6 of 17", where it has one among the joints
  std::string why = {};      // the reasons of the order, the positions and the passes
  MapContent map = {};       // its room is the joint's own (map_room)
  bool datum_blank = false;  // room to write where the datum is, and from where it is faced
};

// What a joint is and what is specified for it: its code and turn large, the part it holds, the
// torque, and in small letters the fasteners and the specification with its limits and source; the
// map beside them, or below where it needs the width. The reasons stand beside a map that leaves
// the room, else below.
void write_joint_top(Markup& page, const finding::JointState& joint, JointTop top);

}  // namespace paper
