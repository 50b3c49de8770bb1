#include "fastener/tightening.h"

#include <numbers>

#include "failure/failure.h"
#include "fastener/thread_geometry.h"

namespace fastener {
namespace {

using quantity::Force;
using quantity::Length;
using quantity::Torque;

constexpr double kCosine30 = std::numbers::sqrt3 / 2.0;

// The two friction terms, the same in both directions.
Length friction_arm(const Thread& thread, Length bearing, const Friction& friction) {
  if (bearing.in_millimetres() <= 0.0) {
    throw failure::InputError("expected a bearing face with a diameter above zero");
  }
  return pitch_diameter(thread) * (friction.thread() / (2.0 * kCosine30)) +
         bearing * (friction.head() / 2.0);
}

Length pitch_arm(const Thread& thread) { return thread.pitch() / (2.0 * std::numbers::pi); }

}  // namespace

Length tightening_arm(const Thread& thread, Length bearing, const Friction& friction) {
  return friction_arm(thread, bearing, friction) + pitch_arm(thread);
}

Length loosening_arm(const Thread& thread, Length bearing, const Friction& friction) {
  return friction_arm(thread, bearing, friction) - pitch_arm(thread);
}

Torque tightening_torque(const Thread& thread, Length bearing, const Friction& friction,
                         Force preload) {
  return preload * tightening_arm(thread, bearing, friction);
}

Force preload_from_torque(const Thread& thread, Length bearing, const Friction& friction,
                          Torque torque) {
  const Torque per_newton = Force::newtons(1.0) * tightening_arm(thread, bearing, friction);
  return Force::newtons(torque / per_newton);
}

Torque loosening_torque(const Thread& thread, Length bearing, const Friction& friction,
                        Force preload) {
  return preload * loosening_arm(thread, bearing, friction);
}

double loosening_ratio(const Thread& thread, Length bearing, const Friction& friction) {
  return loosening_arm(thread, bearing, friction) / tightening_arm(thread, bearing, friction);
}

}  // namespace fastener
