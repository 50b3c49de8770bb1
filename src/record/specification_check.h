#pragma once

#include <optional>
#include <string>

#include "record/specification.h"

namespace record {

// "90-100 N·m" for a minimum and a maximum, in either order, that are the two ends of one torque;
// nothing for any other two targets, and where the minimum is not the lower one.
[[nodiscard]] std::optional<std::string> as_range(const TorqueTarget& a, const TorqueTarget& b);

// Refuses to enter what can be read but cannot be meant. InputError for a specification that ends
// in a full loosening (one by an angle may end it: bearing nuts are backed off so, common practice,
// no source), and for a minimum beside a maximum, which as two steps would be two torques.
// Kept apart from the reader, so that what an earlier program took can still be read.
void check_specification(const Specification& specification);

}  // namespace record
