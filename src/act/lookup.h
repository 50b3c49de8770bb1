#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "logbook/logbook.h"

namespace act {

// The one of `known` that is nearest to what was typed, where it is near enough to be meant; empty
// otherwise.
[[nodiscard]] std::string nearest(std::string_view typed, const std::vector<std::string>& known);

// ": did you mean J06?" or ""; what messages end with.
[[nodiscard]] std::string suggestion(std::string_view typed, const std::vector<std::string>& known);

// That there is none of this name, and which one may be meant or is known.
[[nodiscard]] std::string no_such_joint(const std::string& code,
                                        const std::vector<std::string>& known);
[[nodiscard]] std::string no_such_wrench(const std::string& name,
                                         const std::vector<std::string>& known);

// The joint or wrench of this name. Refusal, with the nearest known name, where there is none.
[[nodiscard]] record::Entry<record::Joint> joint_or_refuse(const logbook::Logbook& logbook,
                                                           const std::string& code);
[[nodiscard]] record::Entry<record::Wrench> wrench_or_refuse(const logbook::Logbook& logbook,
                                                             const std::string& name);

// The joint with these positions. Refusal as joint_or_refuse, InputError as check_positions.
[[nodiscard]] record::Joint joint_at_or_refuse(const logbook::Logbook& logbook,
                                               const std::string& code,
                                               const std::vector<int>& positions);

// InputError where the joint does not have one of these positions.
void check_positions(const record::Joint& joint, const std::vector<int>& positions);

}  // namespace act
