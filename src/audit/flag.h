#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "audit/rule.h"
#include "audit/statement.h"

namespace audit {

// Deviations are built through these, so that ids and addresses are made in one way everywhere.
[[nodiscard]] Deviation flag_position(const Rule& rule, Level level,
                                      const finding::JointState& joint, int position,
                                      Statement says, std::string what_to_do);
[[nodiscard]] Deviation flag_joint(const Rule& rule, Level level, const finding::JointState& joint,
                                   Statement says, std::string what_to_do);

// About some positions together: they stand in the id and before what is said.
[[nodiscard]] Deviation flag_positions(const Rule& rule, Level level,
                                       const finding::JointState& joint,
                                       const std::vector<int>& which, const Statement& says,
                                       std::string what_to_do);

// The same; for all positions of the joint it is about the joint (flag_joint).
[[nodiscard]] Deviation flag_group(const Rule& rule, Level level, const finding::JointState& joint,
                                   const std::vector<int>& which, const Statement& says,
                                   std::string what_to_do);
// About some positions of a joint together, or a matter that a joint can have more than once;
// `which` tells them apart in the id ("pass-2", "TW4").
[[nodiscard]] Deviation flag_part(const Rule& rule, Level level, const finding::JointState& joint,
                                  std::string_view which, Statement says, std::string what_to_do);

// About no joint: a matter of the whole job.
[[nodiscard]] Deviation flag_job(const Rule& rule, Level level, Statement says,
                                 std::string what_to_do);

// One that is not told together with others, or only with those of this kind.
[[nodiscard]] Deviation apart(Deviation deviation);
[[nodiscard]] Deviation of_kind(Deviation deviation, std::string_view kind);

// "what covers it is on: out J07/1-4; then ": empty where the joint can be reached.
[[nodiscard]] std::string once_it_is_reached(const JointCase& at);

// The name of a rule as ids have it: "found-low".
[[nodiscard]] std::string dashed(std::string_view name);

// "20 to 200 N·m".
[[nodiscard]] Statement usable_range(const record::Wrench& wrench);

// "calibrated 2026-03-02, valid to 2027-03-02", of a wrench that is.
[[nodiscard]] Statement calibration(const record::Wrench& wrench);

}  // namespace audit
