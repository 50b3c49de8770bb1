#include "fastener/head_pressure.h"

#include <algorithm>
#include <numbers>

#include "failure/failure.h"

namespace fastener {

using quantity::Length;

SeatRing under_washer(const SeatRing& head, Length outer, Length thickness) {
  if (outer <= head.hole || thickness.in_millimetres() <= 0.0) {
    throw failure::InputError(
        "expected a washer that is wider than its hole and has a thickness above zero");
  }
  return {std::min(outer, head.face + 1.6 * thickness), head.hole};
}

quantity::Stress head_pressure(quantity::Force preload, const SeatRing& seat) {
  static_cast<void>(bearing_diameter(seat.face, seat.hole));  // refuses a ring that bears nothing
  const double face = seat.face.in_millimetres();
  const double hole = seat.hole.in_millimetres();
  return preload /
         quantity::Area::square_millimetres(std::numbers::pi / 4.0 * (face * face - hole * hole));
}

}  // namespace fastener
