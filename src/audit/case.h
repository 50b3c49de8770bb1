#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "audit/calibrations.h"
#include "audit/joint_pattern.h"
#include "audit/lines_by_joint.h"
#include "finding/joint_index.h"
#include "finding/other_fastener.h"
#include "finding/survey.h"
#include "plan/broken_loose.h"
#include "plan/decided.h"
#include "plan/new_fasteners.h"
#include "plan/renewal_list.h"
#include "plan/wrench_choice.h"
#include "progress/cover_times.h"
#include "progress/due_rechecks.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"
#include "progress/work_done.h"

namespace audit {

// What several rules look things up in, made once an audit.
struct Lookups {
  Lookups(const record::Job& job, const finding::Survey& survey, record::Moment now);

  finding::JointIndex joints;
  LinesByJoint lines;
  finding::OddLengths odd_lengths;  // over all joints: swapped fasteners may be of two
  plan::NewFasteners new_fasteners;
  plan::BrokenLoose broken_loose;
  plan::Decided decided;
  Calibrations calibrations;
  plan::WrenchChoice wrench_choice;  // as on the day of `now`
  progress::HoldPointTimes hold_points;
  progress::CoverTimes covers;
  bool is_closing = false;  // something of the job has been tightened
  // What each joint is to get, by the record alone, and what waits for it; by folded code.
  std::unordered_map<std::string, std::vector<plan::Renewing>> renewals;
  std::unordered_map<std::string, std::vector<progress::ItemCount>> items;
};

// What the rules look at.
struct Case {
  const record::Job& job;
  const finding::Survey& survey;
  record::Moment now;
  // How far the plan of that day has been carried out, for all joints on whose reassembly something
  // is on record, and why there is none. A caller that has neither leaves it to `run`: no plan is
  // computed twice.
  const progress::Progress* progress = nullptr;
  std::string_view no_order = {};
  std::string_view order_mend = {};  // the command that mends that (plan/reassembly_order.h)
  // Both by `run`.
  const progress::WorkDone* work = nullptr;  // nothing where no order can be found
  const Lookups* lookups = nullptr;
  std::function<void()> joint_done = {};  // called after each joint that was looked at
};

// One joint of it. Of the others a rule about a joint asks `whole.lookups` and `whole.work`, by
// name; it goes through no list of the whole job.
struct JointCase {
  const Case& whole;
  const finding::JointState& joint;
  const JointLines& lines;
  JointPattern pattern;                       // what its findings have in common
  const progress::JointWork* work = nullptr;  // nothing where no reassembly of it is on record
  std::vector<progress::DueRecheck> rechecks = {};  // of its final stripes, due now or later

  [[nodiscard]] quantity::TorqueUnit unit() const { return joint.unit; }
  [[nodiscard]] const progress::Progress& progress() const { return whole.work->progress(); }
};

// Decided to stay as it is: an empty hole, or one that never came out.
[[nodiscard]] bool is_left_alone(const JointCase& at, int position);

}  // namespace audit
