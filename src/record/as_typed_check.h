#pragma once

#include "record/content.h"

namespace record {

// What was typed is shown, and the value beside it is computed with; a line in which the two say
// different things was not written by this program and would answer differently from one command to
// the next. InputError that names both. Nothing is said of what was not kept as typed.
void check_as_typed(const LogbookStart& start);
void check_as_typed(const Wrench& wrench);
void check_as_typed(const Joint& joint);
void check_as_typed(const Specified& specified);
void check_as_typed(const Removal& removal);
void check_as_typed(const Pull& pull);
void check_as_typed(const Measured& measured);
void check_as_typed(const Tightening& tightening);
void check_as_typed(const FluidAmount& amount);

// Of the other kinds nothing is kept both ways.
template <class Kind>
void check_as_typed(const Kind&) {}

}  // namespace record
