#pragma once

#include "audit/audit.h"
#include "paper/markup.h"
#include "progress/open_list.h"
#include "progress/reassembly.h"

namespace paper {

// What the first page of the report answers from.
struct JobSummary {
  const progress::Reassembly& reassembly;
  const audit::Audit& audit;
  record::Moment now;
  std::vector<progress::OpenPoint> open;  // progress::open_list
};

// The answer, large and in a box: closed up, or what is open; below it how many points and checks
// are open, the next look, and how much came out, was tested and has gone back.
void write_answer(Markup& page, const JobSummary& summary);

// Everything that is open, point by point; nothing where nothing is.
void write_still_open(Markup& page, const JobSummary& summary);

}  // namespace paper
