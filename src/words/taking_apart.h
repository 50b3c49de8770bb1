#pragma once

#include <vector>

#include "plan/decided.h"
#include "progress/reassembly.h"
#include "progress/work_done.h"

namespace words {

// How far a machine has come apart, as a person sees it who stands before it. It points into the
// reassembly.
class TakingApart {
 public:
  explicit TakingApart(const progress::Reassembly& reassembly);

  // The positions that are in as the machine came: nothing came out of them, nothing was done to
  // them since, and it was not decided that they stay so. Rising.
  [[nodiscard]] std::vector<int> still_in(const finding::JointState& joint) const;

  // Something was tightened at this position since it last came out.
  [[nodiscard]] bool is_back(const finding::JointState& joint, int position) const;

  // Something is still in, and putting back has not begun: the joint that goes back first was not
  // touched, or all that came out is back. A cover closed for the night begins nothing.
  [[nodiscard]] bool goes_on() const;

 private:
  [[nodiscard]] bool has_begun_to_go_back() const;

  const progress::Reassembly& reassembly_;
  plan::Decided decided_;
  progress::WorkDone work_;
};

}  // namespace words
