#pragma once

#include "paper/markup.h"
#include "record/measured.h"

namespace paper {

// "line short", "line aligned", "line past", "no move".
[[nodiscard]] std::string_view line_word(record::Mark mark);

// Draws the witness mark after a pull with its middle at this place, as looked at from above: its
// upper half on the fastener, its lower half on the part. Short: the fastener has still to turn,
// clockwise; past: it has turned too far. No move: the halves as for short, with a bar across.
void draw_mark(Markup& page, double x, double y, record::Mark mark);

}  // namespace paper
