#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/friction.h"
#include "fastener/nut_factor.h"
#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/percent.h"
#include "quantity/torque.h"

namespace fastener {

// The span of preloads that one torque may have made.
struct PreloadBand {
  quantity::Force low;
  quantity::Force high;
};

// At the two ends of a friction band; the lower friction gives the higher preload.
[[nodiscard]] PreloadBand preload_band(const Thread& thread, quantity::Length bearing,
                                       const FrictionBand& friction, quantity::Torque torque);

// At the two ends of a nut factor band.
[[nodiscard]] PreloadBand preload_band(const Thread& thread, const NutFactorBand& nut_factor,
                                       quantity::Torque torque);

// A nominal preload with its scatter and the loss after assembly:
//   Fmax = F (1 + u),  Fmin = F (1 - u)/(1 + r)
//   u  scatter of the method (torque_scatter)    r  relaxation, as a share of the least preload
// Source: NASA TM-106943 (1995), preload uncertainty and relaxation; its r is 5 %.
[[nodiscard]] PreloadBand scattered_preload(quantity::Force nominal, quantity::Percent scatter,
                                            quantity::Percent relaxation);

// How far one torque scatters in preload on nominally equal bolts: 35 % dry or as received, 25 %
// lubricated on thread and face. Source: NASA TM-106943 and NSTS-08307, as quoted by a 2019 review.
// Nothing for a threadlocker.
[[nodiscard]] std::optional<quantity::Percent> torque_scatter(Condition condition);

// What lists of nut factors say of a torque, without any bearing face or friction: to be held
// against the band that those give.
struct ListedPreload {
  NutFactorBand nut_factor;
  PreloadBand preload;   // over its band
  PreloadBand one_bolt;  // of its typical value, scattered and relaxed by 5 % (scattered_preload)
};

// Nothing where no list is known for the condition; the lists are of steel on steel.
[[nodiscard]] std::optional<ListedPreload> listed_preload(const Thread& thread, Condition condition,
                                                          quantity::Torque torque);

}  // namespace fastener
