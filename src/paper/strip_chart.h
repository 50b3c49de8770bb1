#pragma once

#include "finding/survey.h"
#include "paper/markup.h"

namespace paper {

// Draws what was found at each tested position of a joint against its tolerance, on one axis in
// the joint's unit: the tolerance as a shaded band between two lines with their numbers, each pull
// as the witness mark stood after it, the bracket as a solid bar, the uncertainty as a thin line
// with ends round the best estimate. Beside it a table, row by row: value, verdict, ratio, grade.
// What is outside is framed through both. A long joint is drawn in several parts, so that a page
// can break between them. Nothing where no position was tested.
void draw_strip_chart(Markup& page, const finding::JointState& joint);

// How to read all of them, drawn once.
void draw_chart_legend(Markup& page);

}  // namespace paper
