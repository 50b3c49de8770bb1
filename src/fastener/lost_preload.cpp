#include "fastener/lost_preload.h"

#include <algorithm>
#include <numbers>

#include "fastener/thread_geometry.h"
#include "fastener/turn_of_nut.h"

namespace fastener {
namespace {

using quantity::Area;
using quantity::Length;

quantity::Force lost(const Thread& thread, Area section, Length stretched, double bolt_share,
                     quantity::Angle turn) {
  const auto bolt =
      rod_stiffness(section, quantity::Stress::kips_per_square_inch(30'000.0), stretched);
  const auto members = bolt * ((1.0 - bolt_share) / bolt_share);
  return preload_change(thread, JointStiffness::of(bolt, members), turn);
}

}  // namespace

AssumedStretch assumed_stretch(const Thread& thread, Length under_head) {
  const auto diameter = thread.diameter();
  return {std::max(under_head - 1.5 * diameter, 0.5 * diameter),
          std::max(under_head, 0.5 * diameter)};
}

PreloadBand lost_preload(const Thread& thread, Length under_head, quantity::Angle turn) {
  const auto stretch = assumed_stretch(thread, under_head);
  const double diameter = thread.diameter().in_millimetres();
  const auto shank = Area::square_millimetres(std::numbers::pi / 4.0 * diameter * diameter);
  return {lost(thread, stress_area(thread), stretch.longest, kMostBoltShare, turn),
          lost(thread, shank, stretch.shortest, kLeastBoltShare, turn)};
}

}  // namespace fastener
