#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finding/survey.h"

namespace finding {

// Why a position must not be put through a found-torque test, whatever the test would give.
enum class NoTest {
  LiveLoad,      // it holds a load while the machine stands (record::Joint::live_load)
  OneTimeAngle,  // a one-time fastener that is tightened by angle
  Threadlocker,  // the adhesive must not be disturbed
};

// A whole clause: "it holds a live load, and ...".
[[nodiscard]] std::string_view in_words(NoTest why);

// All that holds for the position, the most dangerous first; empty where it may be tested. The one
// answer for everybody who leads to a test or speaks of one: nothing is advised there that would
// better the evidence.
[[nodiscard]] std::vector<NoTest> not_to_be_tested(const JointState& joint, int position);

// "must not be tested: ...; ...": of one position, empty where it may be.
[[nodiscard]] std::string why_not_to_be_tested(const JointState& joint, int position);

// "J06/1-4 must not be tested: ...", once for each reason: of those of the positions for which it
// holds.
[[nodiscard]] std::vector<std::string> warnings_before_test(const JointState& joint,
                                                            const std::vector<int>& positions);

}  // namespace finding
