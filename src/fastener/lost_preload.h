#pragma once

#include "fastener/preload_band.h"
#include "fastener/stiffness.h"
#include "fastener/thread.h"
#include "quantity/angle.h"
#include "quantity/length.h"

namespace fastener {

// What is taken for a joint whose stiffness nobody measured. The bolt stretches over a length
// between what lies under its head and that less 1.5 d in the thread (at least d/2), with a section
// between the stress area and the nominal shank; 30 Mpsi (206.8 GPa) as Shigley takes for steel.
struct AssumedStretch {
  quantity::Length shortest;
  quantity::Length longest;
};
[[nodiscard]] AssumedStretch assumed_stretch(const Thread& thread, quantity::Length under_head);

// kb = A E/l of the bolt at the two ends of these assumptions.
struct AssumedStiffness {
  Stiffness softest;
  Stiffness stiffest;
};
[[nodiscard]] AssumedStiffness assumed_stiffness(const Thread& thread, quantity::Length under_head);

// The bolt's share C of the joint's stiffness, steel on steel: 0.114 for 4 in of grip on 1/2-13
// (Shigley 9th ed., Table 8-12, from memory) to 0.33 (solution of a Shigley problem on M30, seen;
// his Example 8-3 has 0.320, seen). A gasket or a softer part takes up more of the turn, so that
// less is lost.
inline constexpr double kLeastBoltShare = 0.114;
inline constexpr double kMostBoltShare = 0.33;

// The preload that a turn back takes from a bolt, as a band:
//   ΔF = (θ/360°) P kb km/(kb + km) = (θ/360°) P kb (1 - C)     (turn_of_nut.h), kb = A E/l
// Both ends are those of the assumptions above. It holds until the preload is gone, so it may be
// more than there was. `turn` is above zero and in the sense that loosens.
[[nodiscard]] PreloadBand lost_preload(const Thread& thread, quantity::Length under_head,
                                       quantity::Angle turn);

}  // namespace fastener
