#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "finding/found_torque.h"
#include "finding/grade.h"
#include "finding/tightened_to.h"
#include "finding/verdict.h"
#include "finding/ways_out.h"
#include "record/job.h"

namespace finding {

// What the readings of one test come to.
struct Finding {
  const record::Entry<record::Measured>* entry = nullptr;
  const record::Wrench* wrench = nullptr;  // as it was on the day; none where it was struck since
  // Of the teardown that it belongs to (own_removal.h); none where none is on record.
  const record::Entry<record::Removal>* removal = nullptr;
  bool is_past = false;  // the fastener went back after it and has come out again
  FoundTorque torque;
  Graded graded;
  // What it was judged by: the position's, with the prevailing torque on top of every limit.
  std::optional<record::ToleranceWindow> window;
  Verdict verdict = Verdict::NotComparable;            // of what turns it to its mark today
  Verdict tightened_verdict = Verdict::NotComparable;  // of what it was tightened to
  std::optional<double> ratio;  // found over specified, where both are one number above zero
};

// Whether both what turns it to its mark today and what it was tightened to lie outside the
// tolerance on the same side: then more than the method's own range stands behind it. Where only
// today's does, it may have been tightened as specified.
[[nodiscard]] bool is_outside_both(const Finding& finding);

// One position of a joint: what is specified for it, how it came out, and its findings, the latest
// one last. Repeated tests are kept apart; the latest counts and the audit names the others. Of
// those that were made in copies of the logbook that were apart, and come to different verdicts,
// the worst one counts until one of them is struck.
struct PositionState {
  int position = 0;
  // Entered for this position among others, and not for the whole joint; the latest last, by when
  // it was said.
  std::vector<const record::Entry<record::Specified>*> own_specifications;
  const record::Specified* specified = nullptr;   // its own latest, else the joint's; may be none
  std::optional<record::ToleranceWindow> window;  // of that, where it ends in a torque
  // The latest; none where it is still in. Where several lines record that it came out, with
  // nothing put back between, and do not say the same, it says the worse of each (ways_out.h).
  const record::Entry<record::Removal>* removal = nullptr;
  // Those lines, in the order done; empty where it is one.
  Outs outs;
  bool is_out_disputed = false;  // they do not say the same
  std::vector<Finding> findings;
  // Of the latest teardown those that were made apart and come to different verdicts, as places in
  // `findings`, and of these and the last the one that counts.
  std::vector<std::size_t> disputed_findings;
  std::size_t worst_finding = 0;

  // That counts, of this teardown: what an earlier one found is history once it came out again.
  [[nodiscard]] const Finding* finding() const {
    if (findings.empty() || findings.back().is_past) return nullptr;
    return disputed_findings.empty() ? &findings.back() : &findings[worst_finding];
  }
};

// One joint with all its positions 1..count.
struct JointState {
  // As it was entered last. Where somebody who did not see that line entered it as critical, as
  // one-time or as holding a live load, in a copy of the logbook that was apart, it is that too.
  const record::Joint* joint = nullptr;
  const record::Entry<record::Joint>* entry = nullptr;
  // Who struck it and who worked on it, where merged copies have it both ways; else nothing.
  const record::Apart::Kept* kept = nullptr;
  // Entered for the whole joint, the latest last: by when it was said, as everything.
  std::vector<const record::Entry<record::Specified>*> specifications;
  std::vector<PositionState> positions;
  // In which it is told: that of its specification, else of the wrench it was last tested with,
  // else the logbook's.
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;

  // The state of position 1..count.
  [[nodiscard]] const PositionState& at(int position) const {
    return positions.at(static_cast<std::size_t>(position) - 1);
  }
};

// What was entered for a joint, wrench, hold point or item that is not (or no longer) in the
// logbook. A finding whose wrench is gone still stands at its position, as no evidence; a
// tightening whose wrench is gone counts for nothing, nor does a step of a hold point or a return
// of an item that is gone.
struct Stray {
  const record::Stamp* stamp = nullptr;
  std::string joint = {};
  int position = 0;         // 0 for the joint as a whole
  std::string wrench = {};  // the one that is not there; empty where the joint or position is not
  std::string hold_point = {};  // the same; then it is about no joint
  std::string item = {};
};

// The state of the whole job: the joints in the order of their entry, everything computed that the
// comparison, the audit and the plan share. It points into `job`, which must outlive it.
struct Survey {
  std::vector<JointState> joints;
  std::vector<Stray> strays;
  // What several lines that dispute each other come to; pointed to by the positions.
  std::vector<std::shared_ptr<const record::Entry<record::Removal>>> read_together = {};
  std::vector<std::shared_ptr<const record::Joint>> cautious_joints = {};
};

[[nodiscard]] Survey survey(const record::Job& job);

// The limits as the wrench feels them: what it takes to run the fastener before it seats comes on
// top of each (fastener/wrench_reading.h, plain addition).
[[nodiscard]] record::ToleranceWindow at_wrench(
    record::ToleranceWindow window, const std::optional<quantity::StatedTorque>& prevailing);

// The torque that may stand in where positions have no specification: the median of their findings
// of grade A or B that are no bound. "Provisional, from finding" wherever it is shown; never a
// specification. Nothing where there is no such finding, or where there are fewer than five of them
// and they do not agree within the share of finding/outlier.h, or a bound (which is not X) lies
// outside of it.
[[nodiscard]] std::optional<quantity::Torque> provisional_torque(const JointState& joint);

// The joint with this code, in any case of letters.
[[nodiscard]] const JointState* joint_in(const Survey& survey, std::string_view code);

}  // namespace finding
