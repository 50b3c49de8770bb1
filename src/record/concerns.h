#pragma once

#include <string>
#include <string_view>

#include "record/address.h"
#include "record/content.h"

namespace record {

// Whether a line speaks of the joint, and of one of its positions where some are named. What is
// said of the joint as a whole concerns each of its positions: the joint itself, its specification,
// the hold points and items that stand before it by name, a decision about it. The code may also be
// that of an item, a hold point or a wrench: then it is about that.
[[nodiscard]] bool concerns(const Content& content, const Address& address);

// Whether a line speaks of single positions.
[[nodiscard]] bool names_a_position(const Content& content);

// The joint that a line speaks of; for an item the one that waits for it. Empty where there is
// none.
[[nodiscard]] std::string joint_named(const Content& content);

// Whether a line speaks of a position of the joint beyond the count.
[[nodiscard]] bool stands_beyond(const Content& content, std::string_view joint, int count);

}  // namespace record
