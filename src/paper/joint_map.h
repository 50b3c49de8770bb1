#pragma once

#include <set>
#include <string>
#include <vector>

#include "paper/map_plan.h"
#include "paper/markup.h"
#include "record/joint.h"

namespace paper {

// What a map shows of a joint besides its positions.
struct MapContent {
  std::vector<int> order;  // positions in the order in which they are tightened; empty for none
  std::set<int> held;      // positions with a deviation that holds up reassembly
  MapRoom room = kMapBeside;
};

// Draws where the positions lie: a ring for each with its number, the datum from which they are
// counted, and on black in the lower part of the ring the turn of each when tightening. A caption
// below says in words how to read it.
void draw_map(Markup& page, const record::Joint& joint, const MapContent& content);

}  // namespace paper
