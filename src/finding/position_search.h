#pragma once

#include <optional>

#include "finding/next_setting.h"
#include "finding/survey.h"

namespace finding {

// The setting to pull at next in this test of one of the joint's positions, after what is specified
// there; `test` holds the readings so far, none at first.
[[nodiscard]] Proposal next_setting_at(const JointState& joint, const record::Measured& test,
                                       const record::Wrench& wrench);

// The torque that this test must not pass; nothing where none is known.
[[nodiscard]] std::optional<Ceiling> ceiling_at(const JointState& joint,
                                                const record::Measured& test);

// What a wrench has to reach for a test of this position: what is expected there, up to the ceiling
// where that is lower. Nothing where nothing is expected.
[[nodiscard]] std::optional<fastener::TorqueRange> searched_range(const JointState& joint,
                                                                  int position);

// Whether the wrench can be set from below the range to its top.
[[nodiscard]] bool covers(const record::Wrench& wrench, const fastener::TorqueRange& range);

}  // namespace finding
