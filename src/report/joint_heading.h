#pragma once

#include <string>
#include <string_view>

#include "finding/survey.h"
#include "report/text.h"

namespace report {

// What a joint is and what is specified for it, as the lines that open its part of a page;
// `number`, such as "10. ", stands in front of its code.
[[nodiscard]] std::string joint_heading(const finding::JointState& joint,
                                        const record::LogbookStart& start, const Page& page,
                                        std::string_view number = "");

// What stands in place of the joints where the logbook has none.
[[nodiscard]] std::string no_joints(const Page& page);
// "M12x1.75 x 90 mm, 8.8".
[[nodiscard]] std::string fastener_text(const record::Joint& joint);

// "16 x M12x1.75 x 90 mm, 8.8".
[[nodiscard]] std::string fasteners_text(const record::Joint& joint);

// "80 N·m = 59 ft·lbf = 708 in·lbf", the logbook's unit first.
[[nodiscard]] std::string side_by_side(quantity::Torque torque, quantity::TorqueUnit first);

}  // namespace report
