#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "fastener/capability.h"
#include "finding/survey.h"

namespace screen {

// The found torques of a joint as one sample, against the tolerance that its positions share.
// Counts what was judged: bounds, grade X and what is not comparable are left out. Torques are
// those that clamp, in N·m, with running torque taken off.
struct JointStatistics {
  fastener::Sample torques;
  fastener::Tolerance tolerance;
  fastener::Capability capability;
};

// Nothing for fewer than three such torques, where all are the same, or where the positions do not
// share a tolerance with both ends.
[[nodiscard]] std::optional<JointStatistics> joint_statistics(const finding::JointState& joint);

// "5 torques: mean 80.2, s 2.1 N·m, capability 1.2 (at least 0.6); 8 tests would show whether 95 %
// of such fasteners keep the tolerance".
[[nodiscard]] std::string statistics_text(const JointStatistics& statistics,
                                          quantity::TorqueUnit unit);

// {"tests","mean_nm","deviation_nm","cp","cpk","cpk_low","shown","tests_needed"|null}.
[[nodiscard]] nlohmann::ordered_json statistics_json(const JointStatistics& statistics);

}  // namespace screen
