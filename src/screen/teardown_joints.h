#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// A joint and how many of its positions are out and tested.
struct JointToOpen {
  const record::Joint* joint = nullptr;
  int done = 0;
};

// The joints that may be named where the guided teardown asks for one: those that are not done, a
// line each, in their order, the first twelve of them; then how many more there are and how many
// are done.
[[nodiscard]] std::string joints_to_open(const std::vector<JointToOpen>& joints,
                                         const words::Page& page);

// What is to be known of a joint before its first fastener is touched: "J06 bearing cap: 16 x M12
// x 90 mm, 8.8; specified 80 N·m, oiled", and where its positions are; the first of it alone.
[[nodiscard]] std::string joint_in_a_line(const finding::JointState& joint);
[[nodiscard]] std::string joint_opening(const finding::JointState& joint, const words::Page& page);

}  // namespace screen
