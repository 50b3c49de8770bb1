#pragma once

#include <optional>
#include <string>
#include <vector>

#include "progress/reassembly.h"
#include "progress/unfinished_before.h"

namespace act {

// What whoever is led from step to step of the plan meets on the way, whatever the door: terminal
// or phone.

// Refusal where the step cannot be led to at this moment: a hold point stands before its joint,
// what covers it is on, it is one-time and was turned by its angle already, it would cover what is
// not finished, or the moment lies before its position came out or was last tightened.
void refuse_out_of_turn(const progress::Reassembly& now, const progress::Step& step,
                        record::Moment moment);

// What the joint of the step covers and what can be done to that only before it, while it can still
// be reached; nothing where nothing is.
[[nodiscard]] std::optional<progress::Unmarked> to_be_marked_before(const progress::Reassembly& now,
                                                                    const progress::Step& step,
                                                                    record::Moment moment);

// Those of the unchecked that share their last pass, which one line can name.
[[nodiscard]] std::vector<int> checked_together(const progress::Progress& progress,
                                                const progress::Unmarked& unmarked);

// What has to be so before this joint and is not, a sentence each.
[[nodiscard]] std::vector<std::string> unmet_before(const progress::Reassembly& now,
                                                    const finding::JointState& joint,
                                                    record::Moment moment);

// Positions of a joint that stand at their final value without a final stripe that says so; or why
// their value is not the final one.
struct StripesDue {
  const finding::JointState* joint = nullptr;
  std::vector<int> positions;
  std::vector<std::string> why_not;
};
[[nodiscard]] std::vector<StripesDue> positions_to_stripe(const progress::Reassembly& now,
                                                          const std::optional<std::string>& joint);

// The same in sentences, with the command that records them.
[[nodiscard]] std::vector<std::string> stripes_due(const progress::Reassembly& now,
                                                   const std::optional<std::string>& joint,
                                                   record::Moment moment);

}  // namespace act
