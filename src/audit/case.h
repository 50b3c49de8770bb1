#pragma once

#include <string_view>
#include <vector>

#include "audit/calibrations.h"
#include "audit/joint_pattern.h"
#include "finding/joint_index.h"
#include "finding/survey.h"
#include "plan/decided.h"
#include "plan/new_fasteners.h"
#include "plan/wrench_choice.h"
#include "progress/due_rechecks.h"
#include "progress/work_done.h"

namespace audit {

// What several rules look things up in, made once an audit.
struct Lookups {
  Lookups(const record::Job& job, const finding::Survey& survey, record::Moment now);

  finding::JointIndex joints;
  plan::NewFasteners new_fasteners;
  plan::Decided decided;
  Calibrations calibrations;
  plan::WrenchChoice wrench_choice;  // as on the day of `now`
};

// What the rules look at.
struct Case {
  const record::Job& job;
  const finding::Survey& survey;
  record::Moment now;
  // What is on record of the reassembly, where the caller has it; else `run` sees to it. Nothing
  // where no order can be found.
  const progress::WorkDone* work = nullptr;
  std::string_view no_order = {};    // why not; by `run`
  const Lookups* lookups = nullptr;  // by `run`
};

// One joint of it.
struct JointCase {
  const Case& whole;
  const finding::JointState& joint;
  JointPattern pattern;                       // what its findings have in common
  const progress::JointWork* work = nullptr;  // nothing where no reassembly of it is on record
  std::vector<progress::DueRecheck> rechecks = {};  // of its final stripes, due now or later

  [[nodiscard]] quantity::TorqueUnit unit() const { return whole.job.start.unit; }
  [[nodiscard]] const progress::Progress& progress() const { return whole.work->progress(); }
};

// Decided to stay as it is: an empty hole, or one that never came out.
[[nodiscard]] bool is_left_alone(const JointCase& at, int position);

}  // namespace audit
