#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "audit/audit.h"
#include "finding/survey.h"
#include "plan/renewal_list.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"

namespace words {

// Something to see to, and whether it is so already.
struct Condition {
  bool met = false;
  std::string says;
};

// What has to be so before joints go back, in the words that terminal, page and JSON share. Points
// into the job, survey and audit, which must not change.
class BeforeJoints {
 public:
  BeforeJoints(const record::Job& job, const finding::Survey& survey, const audit::Audit& audit,
               record::Moment now);

  // Before this joint: open holds, what was decided and is not done, hold points, new fasteners,
  // counted items.
  [[nodiscard]] std::vector<Condition> before(const finding::JointState& joint) const;

  // Before any joint: the hold points, and what goes back beside the bolts.
  [[nodiscard]] std::vector<Condition> hold_points() const;
  [[nodiscard]] std::vector<Condition> goes_back() const;

  [[nodiscard]] const std::vector<plan::Renewing>& renewals() const { return renewals_; }

 private:
  const record::Job& job_;
  std::unordered_map<std::string, std::vector<const audit::Deviation*>> holds_;  // by folded code
  std::unordered_map<std::string, std::vector<const progress::DecidedWork*>> to_do_;  // the same
  std::vector<plan::Renewing> renewals_;
  std::unordered_map<const finding::JointState*, std::vector<const plan::Renewing*>> renewals_of_;
  std::vector<progress::HoldPointState> hold_points_;
  std::vector<progress::ItemCount> items_;
};

}  // namespace words
