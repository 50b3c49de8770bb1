#include "fastener/thread_engagement.h"

#include <algorithm>
#include <numbers>

#include "failure/failure.h"
#include "fastener/thread_limits.h"

namespace fastener {
namespace {

using quantity::Area;
using quantity::Force;
using quantity::Length;

constexpr double kBentThreads = 0.897;   // C3
constexpr double kIdleAtTheMouth = 0.8;  // of a pitch
constexpr double kBoltShear = 0.6;       // of the tensile strength

// π (L/P) D [P/2 + overlap/√3]
Area ring(const Thread& thread, Length engaged, Length diameter, Length overlap) {
  const double pitch = thread.pitch().in_millimetres();
  return Area::square_millimetres(std::numbers::pi * (engaged / thread.pitch()) *
                                  diameter.in_millimetres() *
                                  (pitch / 2.0 + overlap.in_millimetres() / std::numbers::sqrt3));
}

// What a millimetre of engagement holds, of the weaker thread.
struct Held {
  Force force;
  bool by_hole = true;
};

Held held_by_a_millimetre(const Thread& thread, quantity::Stress bolt_tensile,
                          const PartMaterial& part) {
  const auto areas = stripping_areas(thread, Length::millimetres(1.0));
  const auto hole = shear_strength(part) * areas.hole;
  const auto bolt = bolt_tensile * kBoltShear * areas.bolt;
  return {std::min(hole, bolt), hole <= bolt};
}

}  // namespace

StrippingAreas stripping_areas(const Thread& thread, Length engaged) {
  if (engaged.in_millimetres() <= 0.0) {
    throw failure::InputError("expected a length of engaged thread above zero");
  }
  const auto limits = least_overlap(thread);
  return {ring(thread, engaged, limits.bolt_diameter,
               limits.bolt_diameter - limits.hole_pitch_diameter),
          ring(thread, engaged, limits.hole_diameter,
               limits.bolt_pitch_diameter - limits.hole_diameter)};
}

StrippingForce stripping_force(const Thread& thread, const Strength& bolt, const PartMaterial& part,
                               Length engaged) {
  const auto held = held_by_a_millimetre(thread, bolt.tensile, part);
  const auto bearing =
      std::max(engaged - thread.pitch() * kIdleAtTheMouth, Length::millimetres(0.0));
  return {held.force * (bearing.in_millimetres() * kBentThreads),
          held.force * engaged.in_millimetres(), held.by_hole};
}

EngagementNeeded engagement_needed(const Thread& thread, const Strength& bolt,
                                   const PartMaterial& part) {
  const auto weakest = held_by_a_millimetre(thread, bolt.tensile, part);
  const auto strongest = held_by_a_millimetre(thread, bolt.tensile * kStrongestOverLeast, part);
  const auto low = load_at(bolt.yield, thread) / weakest.force;
  const auto high =
      load_at(bolt.tensile, thread) * kStrongestOverLeast / (strongest.force * kBentThreads);
  return {Length::millimetres(low), Length::millimetres(high) + thread.pitch() * kIdleAtTheMouth};
}

FirstToFail first_to_fail(const EngagementNeeded& needed, Length engaged) {
  if (engaged >= needed.high) return FirstToFail::Bolt;
  return engaged < needed.low ? FirstToFail::Thread : FirstToFail::ThreadPerhaps;
}

}  // namespace fastener
