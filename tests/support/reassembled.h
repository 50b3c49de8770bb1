#pragma once

#include "record/job.h"

// A stamp for one more line of the job, done and entered at this moment by this person.
record::Stamp next_stamp(const record::Job& job, record::Moment at, const std::string& by = "KB");

// Adds what a faithful reassembly records: by KB every position of every pass in the plan's order,
// one line each and a minute apart from `at`; then, joint by joint, LM's second check where it is
// critical, and the final stripe.
void reassemble(record::Job& job, record::Moment at);

// The same without the last share of its passes: work that was broken off.
void reassemble_in_part(record::Job& job, record::Moment at, double share);
