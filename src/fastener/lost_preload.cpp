#include "fastener/lost_preload.h"

#include <algorithm>
#include <numbers>

#include "fastener/thread_geometry.h"
#include "fastener/turn_of_nut.h"

namespace fastener {
namespace {

using quantity::Area;
using quantity::Length;

quantity::Force lost(const Thread& thread, Stiffness bolt, double bolt_share,
                     quantity::Angle turn) {
  const auto members = bolt * ((1.0 - bolt_share) / bolt_share);
  return preload_change(thread, JointStiffness::of(bolt, members), turn);
}

}  // namespace

AssumedStretch assumed_stretch(const Thread& thread, Length under_head) {
  const auto diameter = thread.diameter();
  return {std::max(under_head - 1.5 * diameter, 0.5 * diameter),
          std::max(under_head, 0.5 * diameter)};
}

AssumedStiffness assumed_stiffness(const Thread& thread, Length under_head) {
  const auto stretch = assumed_stretch(thread, under_head);
  const double diameter = thread.diameter().in_millimetres();
  const auto shank = Area::square_millimetres(std::numbers::pi / 4.0 * diameter * diameter);
  const auto modulus = quantity::Stress::kips_per_square_inch(30'000.0);
  return {rod_stiffness(stress_area(thread), modulus, stretch.longest),
          rod_stiffness(shank, modulus, stretch.shortest)};
}

PreloadBand lost_preload(const Thread& thread, Length under_head, quantity::Angle turn) {
  const auto stiffness = assumed_stiffness(thread, under_head);
  return {lost(thread, stiffness.softest, kMostBoltShare, turn),
          lost(thread, stiffness.stiffest, kLeastBoltShare, turn)};
}

}  // namespace fastener
