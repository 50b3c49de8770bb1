#include "finding/search_ceiling.h"

#include "fastener/bearing.h"
#include "fastener/plausible_torque.h"
#include "fastener/utilisation.h"
#include "finding/known_bolt.h"

namespace finding {

using fastener::Condition;
using quantity::Torque;

std::string_view name_of(Ceiling::From from) {
  switch (from) {
    case Ceiling::From::Tolerance:
      return "the top of the tolerance";
    case Ceiling::From::Yield:
      return "90 % of the yield of this size and grade";
  }
  return "";
}

std::optional<Torque> yield_ceiling(const record::Joint& joint, Condition condition, bool specified,
                                    Torque prevailing) {
  const auto bolt = known_bolt(joint);
  if (!bolt) return std::nullopt;
  const auto band = fastener::friction_span(condition, fastener::metal_of(bolt->grade));
  return fastener::torque_for_yield_share(bolt->thread,
                                          fastener::usual_bearing_diameter(bolt->thread),
                                          specified ? band.high : band.low, bolt->strength,
                                          quantity::Percent::of_hundred(90.0), prevailing);
}

std::optional<Ceiling> search_ceiling(const record::Joint& joint, Condition condition,
                                      const std::optional<record::ToleranceWindow>& window,
                                      Torque prevailing) {
  std::optional<Ceiling> ceiling;
  if (window && window->high)
    ceiling = Ceiling{*window->high + prevailing, Ceiling::From::Tolerance};
  const auto yield = yield_ceiling(joint, condition, window.has_value(), prevailing);
  if (yield && (!ceiling || *yield < ceiling->torque)) {
    ceiling = Ceiling{*yield, Ceiling::From::Yield};
  }
  return ceiling;
}

std::optional<fastener::TorqueRange> expected_torque(
    const record::Joint& joint, Condition condition,
    const std::optional<record::ToleranceWindow>& window, Torque prevailing) {
  if (window && (window->low || window->high)) {
    return fastener::TorqueRange{(window->low ? *window->low : *window->high) + prevailing,
                                 (window->high ? *window->high : *window->low) + prevailing};
  }
  const auto bolt = known_bolt(joint);
  if (!bolt) return std::nullopt;
  return fastener::plausible_torque(
      bolt->thread, bolt->strength,
      fastener::friction_span(condition, fastener::metal_of(bolt->grade)),
      fastener::usual_bearing_diameter(bolt->thread), prevailing);
}

}  // namespace finding
