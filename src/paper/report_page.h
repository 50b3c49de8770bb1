#pragma once

#include <string>
#include <vector>

#include "audit/audit.h"
#include "paper/document.h"
#include "progress/reassembly.h"
#include "record/history_line.h"

namespace paper {

// What the whole-job report is written from.
struct ReportContent {
  const progress::Reassembly& reassembly;
  const audit::Audit& audit;
  const std::vector<record::HistoryLine>& history;
};

// The whole job on paper. First the answer: closed up or what is open, checks and next look, one
// row a joint, and where to sign. Then what is open point by point; deviations, the open ones
// first; hold points, fluids, counted items and new fasteners; every joint with its map, what was
// found against its tolerance and what was done to it; looks that are due, the wrenches with their
// calibration on the day of printing, and every line of the log, struck ones shown struck.
[[nodiscard]] std::string report_page(const ReportContent& content, const Imprint& imprint);

}  // namespace paper
