#pragma once

#include <optional>
#include <string>

#include "audit/audit.h"
#include "logbook/logbook.h"
#include "plan/reassembly_order.h"
#include "progress/open_list.h"

namespace act {

// A whole job as whoever looks something up sees it at a moment, also where its joints wait for
// each other in a circle, so that no plan can be made. All of it points into each other, so it
// stays where it is.
class Outlook {
 public:
  Outlook(const logbook::Logbook& logbook, record::Moment moment);
  Outlook(const Outlook&) = delete;
  Outlook& operator=(const Outlook&) = delete;

  // With its plan; in a circle as if no joint waited for another.
  [[nodiscard]] const progress::Reassembly& reassembly() const { return *reassembly_; }
  // As it was entered.
  [[nodiscard]] const progress::SurveyedJob& entered() const;
  // Nothing where no plan can be made.
  [[nodiscard]] const progress::Progress* progress() const;
  [[nodiscard]] const plan::PlanCycle* circle() const { return circle_ ? &*circle_ : nullptr; }
  [[nodiscard]] const std::vector<progress::OpenPoint>& open() const { return open_; }
  [[nodiscard]] record::Moment moment() const { return moment_; }

  // What the audit looks at.
  [[nodiscard]] audit::Case subject() const;

 private:
  record::Moment moment_;
  std::optional<progress::Reassembly> reassembly_;
  std::optional<progress::SurveyedJob> entered_;  // with the circle in it
  std::optional<plan::PlanCycle> circle_;
  std::vector<progress::OpenPoint> open_;
};

// Why no plan can be made, with the command that mends it; empty where one can.
[[nodiscard]] std::string why_no_plan(const Outlook& outlook);

// Where the fasteners of the joint are, what comes next there and what is to be seen to; empty
// where no plan can be made.
[[nodiscard]] std::string joint_in_short(const Outlook& outlook, const finding::JointState& joint,
                                         const audit::Audit& audit);

}  // namespace act
