#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "audit/audit.h"

namespace audit {

// Deviations are built through these, so that ids and addresses are made in one way everywhere.
[[nodiscard]] Deviation flag_position(const Rule& rule, Level level,
                                      const finding::JointState& joint, int position,
                                      std::string says, std::string what_to_do);
[[nodiscard]] Deviation flag_joint(const Rule& rule, Level level, const finding::JointState& joint,
                                   std::string says, std::string what_to_do);

// About some positions together: they stand in the id and before what is said.
[[nodiscard]] Deviation flag_positions(const Rule& rule, Level level,
                                       const finding::JointState& joint,
                                       const std::vector<int>& positions, const std::string& says,
                                       std::string what_to_do);

// The same; for all positions of the joint it is about the joint (flag_joint).
[[nodiscard]] Deviation flag_group(const Rule& rule, Level level, const finding::JointState& joint,
                                   const std::vector<int>& positions, const std::string& says,
                                   std::string what_to_do);
// About some positions of a joint together, or a matter that a joint can have more than once;
// `which` tells them apart in the id ("pass-2", "TW4").
[[nodiscard]] Deviation flag_part(const Rule& rule, Level level, const finding::JointState& joint,
                                  std::string_view which, std::string says, std::string what_to_do);

// "20 to 200 N·m".
[[nodiscard]] std::string usable_range_text(const record::Wrench& wrench);

// "calibrated 2026-03-02, valid to 2027-03-02", of a wrench that is.
[[nodiscard]] std::string calibration_text(const record::Wrench& wrench);

// "79.5 N·m", in the logbook's own unit.
[[nodiscard]] std::string torque_text(const Case& subject, quantity::Torque torque);

// "72 to 88 N·m", "at least 90 N·m", "at most 12 N·m".
[[nodiscard]] std::string window_text(const Case& subject, const record::ToleranceWindow& window);

// "80 ±5.7 N·m", "above 80 N·m", "at or below 60 N·m".
[[nodiscard]] std::string found_text(const Case& subject, const finding::FoundTorque& torque);

}  // namespace audit
