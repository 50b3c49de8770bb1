#pragma once

#include <string>
#include <vector>

#include "failure/failure.h"
#include "finding/survey.h"

namespace plan {

// Joints that wait for each other in a circle, so that no order can be found; the message names
// every one of them.
class PlanCycle : public failure::Failure {
 public:
  explicit PlanCycle(const std::string& message) : Failure(failure::kNotInOrder, message) {}
};

// A joint at its place, why it stands there (joint_order.h), and what the order cannot do justice
// to: a joint it waits for is not in the logbook, it covers one whose final value comes later, it
// is bench work but waits for what is not.
struct ReassemblyRow {
  const finding::JointState* joint = nullptr;
  std::string why;
  std::vector<std::string> warnings;
};

// All joints of the job in the order in which they are closed, from the removals and the
// precedences on record. It points into the survey. Throws PlanCycle.
[[nodiscard]] std::vector<ReassemblyRow> reassembly_order(const finding::Survey& survey);

}  // namespace plan
