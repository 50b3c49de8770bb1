#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "progress/progress.h"
#include "record/job.h"

namespace progress {

// A decision that asks for work which is not on record yet.
struct DecidedWork {
  const record::Entry<record::Disposition>* decision = nullptr;
  std::vector<int> open;    // positions, rising; empty where the matter has none
  std::vector<int> old_in;  // of a renewal: those of them where the old fastener is in
};

// What the decisions that are current (record/current_decisions.h) still ask for, in the order of
// their entry. Use as is asks for nothing. Re-torque is done where the position was brought to its
// final value after the decision, renew where a new fastener went in after it, repair and
// correct-record where a line says what was done. Whether a record that was to be corrected still
// stands only the audit knows. Without a plan (`progress` is none) no position has its final value.
[[nodiscard]] std::vector<DecidedWork> decided_work(const record::Job& job,
                                                    const finding::Survey& survey,
                                                    const Progress* progress);

// "re-torque at 3, decided in line 41", "repair, decided in line 12"; of a renewal where the old
// one is in also how it is taken out.
[[nodiscard]] std::string in_words(const DecidedWork& work);

}  // namespace progress
