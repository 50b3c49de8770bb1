#pragma once

#include <string>
#include <utility>
#include <vector>

#include "failure/failure.h"
#include "finding/survey.h"

namespace plan {

// Joints that wait for each other in a circle, so that no order can be found; the message names
// every one of them and a command that mends it.
class PlanCycle : public failure::Failure {
 public:
  // `why_mend` says of which link the command is.
  PlanCycle(std::string circle, const std::string& why_mend, std::string mend)
      : Failure(failure::kNotInOrder, circle + ": " + why_mend + ", boltwitness " + mend),
        circle_(std::move(circle)),
        mend_(std::move(mend)) {}

  // The message without the command.
  [[nodiscard]] const std::string& circle() const { return circle_; }

  // What takes the link that was entered last out of the circle: "joint J03 --replace 12 --without
  // after --why TEXT".
  [[nodiscard]] const std::string& mend() const { return mend_; }

 private:
  std::string circle_;
  std::string mend_;
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
