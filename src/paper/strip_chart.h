#pragma once

#include "finding/survey.h"
#include "paper/markup.h"
#include "record/logbook_start.h"

namespace paper {

// Draws what was found at each tested position of a joint against its tolerance, on one axis in the
// logbook's unit: the tolerance as an outlined band, each pull as the witness mark stood after it
// (line short, line aligned, line past), the bracket as a bar, the best estimate as a diamond with
// its uncertainty, and the verdict in words. A long joint is drawn in several parts, so that a page
// can break between them. Nothing where no position was tested.
void draw_strip_chart(Markup& page, const finding::JointState& joint,
                      const record::LogbookStart& start);

}  // namespace paper
