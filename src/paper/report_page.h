#pragma once

#include <functional>
#include <string>
#include <string_view>
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
  // Gives the bytes of a photograph, one at a time; nothing where they are to be left out.
  std::function<std::string(const record::Photograph&)> bytes_of = {};
  std::function<void()> joint_written = {};  // called after each
};

// The whole job on paper. First the answer: closed up or what is open, checks and next look, one
// row a joint, and where to sign. Then what is open point by point; deviations, the open ones
// first; hold points, fluids, counted items and new fasteners; every joint with its map, what was
// found against its tolerance and what was done to it; looks that are due, the wrenches with their
// calibration on the day of printing, and every line of the log, struck ones shown struck.
// Photographs stand behind the joint that they are of, those of the machine before the wrenches.
// The page is handed over piece by piece, so that no more than one of them is held.
void write_report(const ReportContent& content, const Imprint& imprint,
                  const std::function<void(std::string_view piece)>& take);

}  // namespace paper
