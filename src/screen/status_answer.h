#pragma once

#include <string>

#include "audit/audit.h"
#include "plan/reassembly_order.h"
#include "progress/open_list.h"
#include "words/text.h"

namespace screen {

// How far a job is from its end.
struct JobStatus {
  const progress::Reassembly& reassembly;
  const std::vector<progress::OpenPoint>& open;
  const audit::Audit& audit;
  // Where the joints wait for each other: the rest is then told as if none did.
  const plan::PlanCycle* circle = nullptr;
  record::Moment now = {};

  [[nodiscard]] bool has_joints() const { return !reassembly.survey.joints.empty(); }

  // There is something to put together, nothing of it is open, nothing of the audit stands in the
  // way, and whatever was decided is done.
  [[nodiscard]] bool is_finished() const {
    return has_joints() && circle == nullptr && open.empty() && audit::in_the_way(audit).empty() &&
           audit.to_do.empty();
  }
};

// The first screen: what is open and which fasteners are wrong, the next step as a command with the
// wrench that it takes, of a finished job the next look, then a row a joint. Lists are cut unless
// `whole`; the joints that are shown are then the one at hand, those that are to be seen to, and
// those that are not done.
[[nodiscard]] std::string status_text(const JobStatus& status, bool whole, const words::Page& page);
// Its first lines alone: how it stands and the next step.
[[nodiscard]] std::string status_in_short(const JobStatus& status, const words::Page& page);
// {"finished":bool,"next":{"command","why","wrench"},"to_settle":[id],"looks_due":[id],"to_do":(see
// audit_json),"open":[{"joint"|null,"says","command"}],"joints":[{"joint","count","out",
// "final_value","second_check","striped","where","next","see_to"}],"bags":[{"bag","out","back","left"}]}
[[nodiscard]] std::string status_json(const JobStatus& status);

}  // namespace screen
