#include "finding/torque_per_degree.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fastener/bearing.h"
#include "fastener/friction.h"
#include "fastener/lost_preload.h"
#include "fastener/tightening.h"
#include "finding/known_bolt.h"

namespace finding {
namespace {

using quantity::Angle;
using quantity::Length;
using quantity::Torque;

const Length kSmallestRadius = Length::millimetres(4.0);
constexpr double kAcrossFlats = 1.5;  // of the diameter

Torque torque_of_preload(quantity::Force preload, Length arm) {
  return Torque::newton_metres(preload.in_newtons() * arm.in_millimetres() / 1000.0);
}

Torque mean_square_slope(Torque low, Torque high) {
  const double ratio = high / low;
  if (!(ratio > 1.0)) return high;
  return low * std::sqrt((ratio * ratio - 1.0) / (2.0 * std::log(ratio)));
}

// By size, length and the friction of its condition; at most `most`.
TorquePerDegree slope_of_metal(const TestedBolt& bolt, fastener::BoltMetal metal, Torque most) {
  const auto& thread = *bolt.thread;
  const auto gained = fastener::lost_preload(thread, *bolt.length, Angle::degrees(1.0));
  const auto friction = fastener::friction_span(bolt.condition, metal);
  const auto bearing = fastener::usual_bearing_diameter(thread);
  const Torque low = std::min(
      torque_of_preload(gained.low, fastener::tightening_arm(thread, bearing, friction.low)), most);
  const Torque high = std::min(
      torque_of_preload(gained.high, fastener::tightening_arm(thread, bearing, friction.high)),
      most);
  if (!(low < most)) return {most, most, most, SlopeFrom::TooStiff};
  return {low, high, mean_square_slope(low, high), SlopeFrom::Bolt};
}

}  // namespace

Angle mark_error(const TestedBolt& bolt) {
  const Length radius = bolt.thread ? bolt.thread->diameter() * (kAcrossFlats / std::numbers::sqrt3)
                                    : kSmallestRadius;
  return Angle::radians(kPenWidth / 2.0 / radius);
}

TorquePerDegree estimated_slope(const TestedBolt& bolt, Torque at) {
  const Torque least = at * kLeastShare;
  const Torque most = at * kMostShare;
  if (!bolt.thread || !bolt.length || !(*bolt.length > Length::millimetres(0.0))) {
    return {least, most, mean_square_slope(least, most), SlopeFrom::Share};
  }
  if (bolt.metal) return slope_of_metal(bolt, *bolt.metal, most);
  const auto steel = slope_of_metal(bolt, fastener::BoltMetal::Steel, most);
  const auto stainless = slope_of_metal(bolt, fastener::BoltMetal::Stainless, most);
  return {std::min(steel.low, stainless.low), std::max(steel.high, stainless.high),
          std::max(steel.counts, stainless.counts), steel.from};
}

TorquePerDegree measured_slope(Torque per_degree) {
  return {per_degree, per_degree, per_degree, SlopeFrom::Offsets};
}

TestedBolt tested_bolt(const record::Joint& joint, fastener::Condition condition) {
  const auto grade = fastener::read_grade(joint.grade);
  return {known_thread(joint), joint.length, condition,
          grade ? std::optional(fastener::metal_of(*grade)) : std::nullopt};
}

}  // namespace finding
