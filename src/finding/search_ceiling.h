#pragma once

#include <optional>
#include <string_view>

#include "fastener/condition.h"
#include "fastener/torque_range.h"
#include "quantity/torque.h"
#include "record/joint.h"
#include "record/specification.h"

namespace finding {

// The torque that a search must not pass, and what sets it.
struct Ceiling {
  enum class From { Tolerance, Yield };
  quantity::Torque torque;
  From from = From::Tolerance;
};

// "the top of the tolerance", "90 % of the yield of this size and grade".
[[nodiscard]] std::string_view name_of(Ceiling::From from);

// The torque that loads the bolt to 90 % of its yield, pull and twist together, with the torque
// that runs the fastener in the twist and on top (utilisation.h; the 90 % is that of VDI 2230 Part
// 1). Friction is taken at one end of the condition's band:
//   nothing specified   the low end: no bolt is harmed, whatever its friction
//   specified           the high end: the maker knows the friction the torque is meant for, and a
//                       band that is wider must not stop a search below his tolerance; what this
//                       end cannot bear, no bolt of the size can
// For a threadlocker the span from oiled to dry is taken (friction_span), plain bearing face
// as in usual_bearing_diameter. Nothing where size or grade cannot be read, or the grade does not
// exist at the size.
[[nodiscard]] std::optional<quantity::Torque> yield_ceiling(const record::Joint& joint,
                                                            fastener::Condition condition,
                                                            bool specified,
                                                            quantity::Torque prevailing);

// The lower of the tolerance's top and the yield ceiling, as the wrench feels it: both with the
// torque that runs the fastener on top. Nothing where neither is known.
[[nodiscard]] std::optional<Ceiling> search_ceiling(
    const record::Joint& joint, fastener::Condition condition,
    const std::optional<record::ToleranceWindow>& window, quantity::Torque prevailing);

// Where the found torque is expected: the tolerance, from its one limit where it has one only; else
// the plausible band of size and grade (plausible_torque.h), which is no specification. Both with
// the torque that runs the fastener on top. Nothing where neither is known.
[[nodiscard]] std::optional<fastener::TorqueRange> expected_torque(
    const record::Joint& joint, fastener::Condition condition,
    const std::optional<record::ToleranceWindow>& window, quantity::Torque prevailing);

}  // namespace finding
