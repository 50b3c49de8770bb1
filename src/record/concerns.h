#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/address.h"
#include "record/content.h"

namespace record {

// A line about positions of a joint; one about the joint as a whole leaves them empty.
template <class Kind>
concept AboutPositions = requires(const Kind& content) {
  content.joint;
  content.positions;
};

// A line about one position of a joint.
template <class Kind>
concept AboutOnePosition = requires(const Kind& content, int position) {
  content.joint;
  position = content.position;
};

// A line that says something of the fasteners of a joint.
template <class Kind>
concept AboutFasteners = AboutPositions<Kind> || AboutOnePosition<Kind>;

// A line that names no position. A kind that is neither about fasteners nor among these, nor a
// decision, does not compile.
template <class Kind>
concept AboutNoPosition = OneOf<Kind, LogbookStart, Wrench, Joint, FluidAmount, CountedItem,
                                ItemReturn, HoldPoint, HoldPointStep, Strike>;

// The positions that it names, as it holds them.
template <AboutPositions Kind>
[[nodiscard]] const std::vector<int>& positions_named(const Kind& content) {
  return content.positions;
}
template <AboutOnePosition Kind>
[[nodiscard]] std::vector<int> positions_named(const Kind& content) {
  return {content.position};
}

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
