#pragma once

#include "paper/markup.h"
#include "progress/reassembly.h"

namespace paper {

// One row a joint: what it holds, what its tests came to with what is outside by position, and how
// many of its fasteners are out, have their final value, their stripe and their second person.
void write_joint_rows(Markup& page, const progress::Reassembly& reassembly);

// What came out of each bag and has gone back.
void write_bag_counts(Markup& page, const progress::Reassembly& reassembly);

}  // namespace paper
