#pragma once

#include "finding/survey.h"
#include "paper/markup.h"

namespace paper {

// What a joint is and what is specified for it: its code large, the part it holds, the fasteners,
// and the specification with its limits and source.
void write_joint_facts(Markup& page, const finding::JointState& joint);

}  // namespace paper
