#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finding/survey.h"
#include "words/text.h"

namespace words {

// What a joint is and what is specified for it, as the lines that open its part of a page;
// `number`, such as "10. ", stands in front of its code.
[[nodiscard]] std::string joint_heading(const finding::JointState& joint, const Page& page,
                                        std::string_view number = "");

// The same of one position: of what is specified only that which holds for it.
[[nodiscard]] std::string position_heading(const finding::JointState& joint, int position,
                                           const Page& page);

// What stands in place of the joints where the logbook has none.
[[nodiscard]] std::string no_joints(const Page& page);

// "M12x1.75 x 90 mm, 8.8".
[[nodiscard]] std::string fastener_text(const record::Joint& joint);

// "16 x M12x1.75 x 90 mm, 8.8".
[[nodiscard]] std::string fasteners_text(const record::Joint& joint);

// The same with what is special about them: "8 x M12x1.25 x 45 mm, 10.9, one-time, critical".
[[nodiscard]] std::string kind_text(const record::Joint& joint);

// "into EN AC-46000, 18 mm engaged; head on GJL-250, 24mm across its face"; empty where nothing is
// known of the parts.
[[nodiscard]] std::string parts_text(const record::Joint& joint);

// What is specified for the joint, for each group of positions: procedure, limits, condition and
// source in a line, then the torque in every unit where it is one. Where a position is named, of
// its group alone.
[[nodiscard]] std::vector<std::string> specification_lines(
    const finding::JointState& joint, std::optional<int> position = std::nullopt);

// "80 N·m = 59 ft·lbf = 708 in·lbf"; one unit first.
[[nodiscard]] std::string side_by_side(quantity::Torque torque, quantity::TorqueUnit first);

}  // namespace words
