#pragma once

#include <string_view>

#include "fastener/origin.h"
#include "quantity/percent.h"

namespace fastener {

// What a tightened bolt loses without turning, as published. Each is a share of its preload.

struct LossBand {
  quantity::Percent low;
  quantity::Percent high;
  Origin origin;
};

// Faces and threads bed in: 2 to 10 %, most of it at once. Source: NASA TM-106943, which designs
// with 5 %.
[[nodiscard]] LossBand embedding_loss();

// What both bands do not hold: thick paint or zinc on many faces, soft parts. 20 % after 500 h was
// published of the flange of a wind tower (abstract, second-hand).
inline const quantity::Percent kBeyondTheBand = quantity::Percent::of_hundred(20.0);

// Relaxation within five days of a bare and of a galvanized joint: 2.5 and 6.5 %, later loss
// negligible. Source: Munse 1967, as the commentary on structural bolts of 2004 quotes it.
[[nodiscard]] LossBand five_day_loss();

// What later neighbours take, for `later` of a bolt's two neighbours tightened after it in the same
// pass and `raised` as the share of the final preload by which that pass raised them:
//   loss = 0 to 35 % · later/2 · raised
// It stands on one published figure. No table of what single bolts of a joint keep was found
// (looked for as elastic interaction, crosstalk, tightening sequence and neighbours, in papers,
// standards and handbooks: abstracts name the effect and give no numbers), so it is a band and has
// no check values; what it holds by its nature is tested instead. Source: tests of bolts tightened
// one after another lost up to 35 % to those tightened later, more with a gasket (a reference page
// on tightening sequences). That half of it is due to each of two neighbours, and that it grows
// with what they are raised by, is our reading (linear elastic parts), no source.
[[nodiscard]] LossBand neighbour_loss(int later, double raised);

}  // namespace fastener
