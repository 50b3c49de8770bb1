#pragma once

#include "paper/markup.h"
#include "progress/reassembly.h"

namespace paper {

// What came out of each joint and bag and what has gone back.
void write_joint_counts(Markup& page, const progress::Reassembly& reassembly);
void write_bag_counts(Markup& page, const progress::Reassembly& reassembly);

}  // namespace paper
