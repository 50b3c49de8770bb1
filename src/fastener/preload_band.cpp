#include "fastener/preload_band.h"

#include "fastener/tightening.h"

namespace fastener {

using quantity::Percent;

PreloadBand preload_band(const Thread& thread, quantity::Length bearing,
                         const FrictionBand& friction, quantity::Torque torque) {
  return {preload_from_torque(thread, bearing, friction.high, torque),
          preload_from_torque(thread, bearing, friction.low, torque)};
}

PreloadBand preload_band(const Thread& thread, const NutFactorBand& nut_factor,
                         quantity::Torque torque) {
  return {preload_by_nut_factor(nut_factor.high, thread.diameter(), torque),
          preload_by_nut_factor(nut_factor.low, thread.diameter(), torque)};
}

PreloadBand scattered_preload(quantity::Force nominal, Percent scatter, Percent relaxation) {
  return {nominal * (1.0 - scatter.ratio()) / (1.0 + relaxation.ratio()),
          nominal * (1.0 + scatter.ratio())};
}

std::optional<Percent> torque_scatter(Condition condition) {
  switch (condition) {
    case Condition::Dry:
    case Condition::AsReceived:
      return Percent::of_hundred(35.0);
    case Condition::Oiled:
    case Condition::AntiSeize:
      return Percent::of_hundred(25.0);
    case Condition::Threadlocker:
      break;
  }
  return std::nullopt;
}

std::optional<ListedPreload> listed_preload(const Thread& thread, Condition condition,
                                            quantity::Torque torque) {
  const auto listed = nut_factor_band(condition);
  const auto scatter = torque_scatter(condition);
  if (!listed || !scatter) return std::nullopt;
  const auto nominal = preload_by_nut_factor(listed->typical, thread.diameter(), torque);
  return ListedPreload{*listed, preload_band(thread, *listed, torque),
                       scattered_preload(nominal, *scatter, Percent::of_hundred(5.0))};
}

}  // namespace fastener
