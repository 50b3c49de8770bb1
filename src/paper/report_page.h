#pragma once

#include <string>
#include <vector>

#include "audit/audit.h"
#include "finding/survey.h"
#include "paper/document.h"
#include "record/history_line.h"

namespace paper {

// What the whole-job report is written from.
struct ReportContent {
  const record::Job& job;
  const finding::Survey& survey;
  const audit::Audit& audit;
  const std::vector<record::HistoryLine>& history;
};

// The whole job on paper: summary, deviations with room for the decision, every joint with its map
// and what was found against its tolerance, the wrenches with their calibration on the day of
// printing, and every line of the log, struck ones shown struck.
[[nodiscard]] std::string report_page(const ReportContent& content, const Imprint& imprint);

}  // namespace paper
