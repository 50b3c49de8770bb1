#pragma once

#include "paper/markup.h"
#include "record/job.h"

namespace paper {

// The wrenches of a job as they are now, with the state of their calibration on this day.
void write_wrench_table(Markup& page, const record::Job& job, record::Day day);

}  // namespace paper
