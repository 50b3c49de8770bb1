#include "fastener/utilisation.h"

#include <cmath>
#include <numbers>

#include "fastener/thread_geometry.h"
#include "fastener/tightening.h"

namespace fastener {
namespace {

using quantity::Force;
using quantity::Length;
using quantity::Percent;
using quantity::Stress;
using quantity::Torque;

// σred over σ.
double twist_factor(const Thread& thread, double thread_friction) {
  constexpr double kSecant30 = 2.0 / std::numbers::sqrt3;
  const Length d2 = pitch_diameter(thread);
  const double turning =
      thread.pitch() / d2 / std::numbers::pi + Friction::same(thread_friction).thread() * kSecant30;
  const double shear_over_pull = 1.5 * (d2 / stress_diameter(thread)) * turning;
  return std::sqrt(1.0 + 3.0 * shear_over_pull * shear_over_pull);
}

}  // namespace

Percent share_of_proof(const Thread& thread, const Strength& strength, Force preload) {
  return Percent::from_ratio(preload / load_at(proof_basis(strength).stress, thread));
}

Force preload_at_proof_share(const Thread& thread, const Strength& strength, Percent share) {
  return load_at(proof_basis(strength).stress, thread) * share.ratio();
}

Stress combined_stress(const Thread& thread, Force preload, double thread_friction) {
  return preload / stress_area(thread) * twist_factor(thread, thread_friction);
}

Percent share_of_yield(const Thread& thread, const Strength& strength, Force preload,
                       double thread_friction) {
  return Percent::from_ratio(combined_stress(thread, preload, thread_friction) / strength.yield);
}

Force assembly_preload(const Thread& thread, Stress yield, double thread_friction, Percent share) {
  return load_at(yield, thread) * (share.ratio() / twist_factor(thread, thread_friction));
}

Torque torque_for_proof_share(const Thread& thread, Length bearing, const Friction& friction,
                              const Strength& strength, Percent share) {
  return tightening_torque(thread, bearing, friction,
                           preload_at_proof_share(thread, strength, share));
}

Torque torque_for_yield_share(const Thread& thread, Length bearing, const Friction& friction,
                              const Strength& strength, Percent share) {
  return tightening_torque(thread, bearing, friction,
                           assembly_preload(thread, strength.yield, friction.thread(), share));
}

}  // namespace fastener
