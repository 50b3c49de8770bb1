#pragma once

#include "audit/audit.h"
#include "paper/markup.h"
#include "progress/reassembly.h"

namespace paper {

// What the job comes to in a few sentences: open holds, how many fasteners came out and were tested
// with what verdicts, how far reassembly has come and everything that is still open.
void write_job_summary(Markup& page, const progress::Reassembly& reassembly,
                       const audit::Audit& audit, record::Moment now);

}  // namespace paper
