#pragma once

#include <string_view>
#include <vector>

#include "paper/markup.h"
#include "words/before_joint.h"

namespace paper {

enum class BoxSize { Large, Small };

// A box to tick, ticked in print where it is done already.
void write_tick_box(Markup& page, bool done, BoxSize size = BoxSize::Large);

// A list of things to see to, each with a box: begin_todo, write_todo for each, end with close().
void begin_todo(Markup& page);
void write_todo(Markup& page, bool done, std::string_view what);

// The same list of conditions, ticked where they are met.
void write_todo(Markup& page, const std::vector<words::Condition>& conditions);

// What is to be signed, with room for a name and a day.
void write_sign_line(Markup& page, std::string_view what);

}  // namespace paper
