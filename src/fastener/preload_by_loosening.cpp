#include "fastener/preload_by_loosening.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using quantity::Force;
using quantity::Torque;

Force over_travel(Torque torque, quantity::Length travel_of_turn) {
  return Force::newtons(std::numbers::pi * torque.in_newton_metres() * 1000.0 /
                        travel_of_turn.in_millimetres());
}

}  // namespace

Force preload_of_difference(quantity::Length travel_of_turn, const LoosenedPair& pair) {
  return over_travel(pair.on - pair.off, travel_of_turn);
}

PreloadByLoosening preload_by_loosening(const Thread& thread, const LoosenedPair& pair) {
  if (pair.off >= pair.on) {
    throw failure::InputError(fmt::format(
        "loosening takes {} N·m and tightening took {} N·m: friction has changed since (rust, "
        "adhesive, rest), and the two say nothing of the preload; loosen right after tightening",
        quantity::write_rounded(pair.off.in_newton_metres()),
        quantity::write_rounded(pair.on.in_newton_metres())));
  }
  const double readings =
      kReadingShare * std::hypot(pair.on.in_newton_metres(), pair.off.in_newton_metres());
  const double friction = kFrictionChange * ((pair.on + pair.off) / 2.0).in_newton_metres();
  const auto twice_over_root_three = [&](double half_width) {
    return over_travel(Torque::newton_metres(2.0 * half_width / std::numbers::sqrt3),
                       thread.pitch());
  };
  return {preload_of_difference(thread.pitch(), pair),
          twice_over_root_three(std::hypot(readings, friction)), twice_over_root_three(readings)};
}

}  // namespace fastener
