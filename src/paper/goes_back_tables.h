#pragma once

#include <vector>

#include "paper/markup.h"
#include "plan/renewal_list.h"
#include "progress/hold_point_state.h"
#include "progress/reassembly.h"

namespace paper {

// What has to be so and what goes back beside the bolts, for the file: hold points with who passed
// them, fluids with their balance, counted items, new fasteners. Each under a heading of its own,
// and nothing where the job has none.
void write_hold_point_table(Markup& page, const record::Job& job, record::Moment now);
void write_fluid_table(Markup& page, const record::Job& job);
void write_item_table(Markup& page, const record::Job& job);
void write_renewal_table(Markup& page, const record::Job& job, const finding::Survey& survey);

}  // namespace paper
