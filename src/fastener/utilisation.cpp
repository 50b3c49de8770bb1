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

// M without the running torque, over F.
Length thread_arm(const Thread& thread, double thread_friction) {
  constexpr double kSecant30 = 2.0 / std::numbers::sqrt3;
  const Length d2 = pitch_diameter(thread);
  return d2 * (0.5 * (thread.pitch() / d2 / std::numbers::pi +
                      Friction::same(thread_friction).thread() * kSecant30));
}

// √3 τ for a twisting moment.
Stress twisted_by(Torque moment, const Thread& thread) {
  const double d0 = stress_diameter(thread).in_millimetres();
  return Stress::megapascals(std::numbers::sqrt3 * 12.0 * moment.in_newton_metres() * 1000.0 /
                             (std::numbers::pi * d0 * d0 * d0));
}

}  // namespace

Percent share_of_proof(const Thread& thread, const Strength& strength, Force preload) {
  return Percent::from_ratio(preload / load_at(proof_basis(strength).stress, thread));
}

Force preload_at_proof_share(const Thread& thread, const Strength& strength, Percent share) {
  return load_at(proof_basis(strength).stress, thread) * share.ratio();
}

Stress combined_stress(const Thread& thread, Force preload, double thread_friction,
                       Torque running) {
  const auto pull = preload / stress_area(thread);
  const auto twist = twisted_by(preload * thread_arm(thread, thread_friction) + running, thread);
  return Stress::megapascals(std::hypot(pull.in_megapascals(), twist.in_megapascals()));
}

Percent share_of_yield(const Thread& thread, const Strength& strength, Force preload,
                       double thread_friction, Torque running) {
  return Percent::from_ratio(combined_stress(thread, preload, thread_friction, running) /
                             strength.yield);
}

Force assembly_preload(const Thread& thread, Stress yield, double thread_friction, Percent share,
                       Torque running) {
  // (F/As)² + (t F + r)² = (share yield)², with t the twist stress of 1 N and r that of the running
  // torque; the positive root for F.
  const auto newton = Force::newtons(1.0);
  const double pull = (newton / stress_area(thread)).in_megapascals();
  const double twist =
      twisted_by(newton * thread_arm(thread, thread_friction), thread).in_megapascals();
  const double held = twisted_by(running, thread).in_megapascals();
  const double allowed = yield.in_megapascals() * share.ratio();
  if (held >= allowed) return Force::newtons(0.0);
  const double squares = pull * pull + twist * twist;
  const double root = twist * held;
  return Force::newtons(
      (std::sqrt(root * root + squares * (allowed * allowed - held * held)) - root) / squares);
}

Torque torque_for_proof_share(const Thread& thread, Length bearing, const Friction& friction,
                              const Strength& strength, Percent share) {
  return tightening_torque(thread, bearing, friction,
                           preload_at_proof_share(thread, strength, share));
}

Torque torque_for_yield_share(const Thread& thread, Length bearing, const Friction& friction,
                              const Strength& strength, Percent share, Torque running) {
  return tightening_torque(
             thread, bearing, friction,
             assembly_preload(thread, strength.yield, friction.thread(), share, running)) +
         running;
}

}  // namespace fastener
