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

std::optional<Torque> yield_ceiling(const record::Joint& joint, Condition condition,
                                    bool specified) {
  const auto bolt = known_bolt(joint);
  if (!bolt) return std::nullopt;
  const auto band = fastener::friction_span(condition);
  return fastener::torque_for_yield_share(
      bolt->thread, fastener::usual_bearing_diameter(bolt->thread),
      specified ? band.high : band.low, bolt->strength, quantity::Percent::of_hundred(90.0));
}

std::optional<Ceiling> search_ceiling(const record::Joint& joint, Condition condition,
                                      const std::optional<record::ToleranceWindow>& window,
                                      Torque prevailing) {
  std::optional<Ceiling> ceiling;
  if (window && window->high) ceiling = Ceiling{*window->high, Ceiling::From::Tolerance};
  const auto yield = yield_ceiling(joint, condition, window.has_value());
  if (yield && (!ceiling || *yield < ceiling->torque)) {
    ceiling = Ceiling{*yield, Ceiling::From::Yield};
  }
  if (ceiling) ceiling->torque = ceiling->torque + prevailing;
  return ceiling;
}

std::optional<fastener::TorqueRange> expected_torque(
    const record::Joint& joint, Condition condition,
    const std::optional<record::ToleranceWindow>& window, Torque prevailing) {
  std::optional<fastener::TorqueRange> expected;
  if (window && (window->low || window->high)) {
    expected = fastener::TorqueRange{window->low ? *window->low : *window->high,
                                     window->high ? *window->high : *window->low};
  } else if (const auto bolt = known_bolt(joint)) {
    expected = fastener::plausible_torque(bolt->thread, bolt->strength,
                                          fastener::friction_span(condition));
  }
  if (expected) {
    expected->low = expected->low + prevailing;
    expected->high = expected->high + prevailing;
  }
  return expected;
}

}  // namespace finding
