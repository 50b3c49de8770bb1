#pragma once

#include <set>
#include <string>
#include <vector>

#include "finding/survey.h"
#include "progress/teardown.h"

namespace progress {

// What whoever is led through a teardown is led to next, whatever the door: terminal or phone.

// The joint of the latest pull of a test that was left unfinished; empty where none is under way.
[[nodiscard]] std::string joint_under_way(const record::Job& job, const Teardown& teardown);

// Those of the positions that are led out without a test: what must not be tested, and what was
// put away already.
[[nodiscard]] std::set<int> led_out_untested(const finding::JointState& joint,
                                             const Teardown& teardown,
                                             const std::vector<int>& positions);

// How many positions of the joint are out and tested, or out where nothing is to be tested.
[[nodiscard]] int positions_taken_apart(const finding::JointState& joint, const Teardown& teardown);

// The last tightening of a position of the joint that did not come out after it; nothing where none
// is in.
[[nodiscard]] const record::Stamp* last_tightened(const record::Job& job,
                                                  const finding::JointState& joint);

// The wrench for a test of this position: the one used last, else the logbook's only one, where it
// covers what is expected there and is not out of calibration on the day. Empty where it has to be
// asked for.
[[nodiscard]] std::string wrench_at_hand(const record::Job& job, const finding::JointState& joint,
                                         int position, const std::string& used_last,
                                         record::Day day);

}  // namespace progress
