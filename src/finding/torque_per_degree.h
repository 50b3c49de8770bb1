#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/grade.h"
#include "fastener/thread.h"
#include "quantity/angle.h"
#include "quantity/length.h"
#include "quantity/torque.h"
#include "record/joint.h"

namespace finding {

// What is known of the fastener under test; nothing of it has to be.
struct TestedBolt {
  std::optional<fastener::Thread> thread = std::nullopt;
  std::optional<quantity::Length> length = std::nullopt;  // under the head
  fastener::Condition condition = fastener::Condition::AsReceived;
  std::optional<fastener::BoltMetal> metal = std::nullopt;  // nothing where no grade says it
};

// How far off a mark is read: half a pen line, seen at the corner of the fastener's own head.
//   angle = kPenWidth/2 / (0.866 d)      d  nominal diameter
// Across flats is taken as 1.5 d (Shigley 9th ed., text before Eq. 8-26), so that the corner stands
// 1.5 d/√3 from the axis. A pen line 0.7 mm wide is this program's own assumption: 1.9° at an M12.
// Where the size is not known, the radius is taken as 4 mm: 5.0°.
inline const quantity::Length kPenWidth = quantity::Length::millimetres(0.7);
[[nodiscard]] quantity::Angle mark_error(const TestedBolt& bolt);

// How fast torque rises as the mark closes, and where that is known from.
enum class SlopeFrom {
  Offsets,   // measured: the line through the offsets of this test
  Bolt,      // size, length and condition
  Share,     // a share of the torque, since size or length is not known
  TooStiff,  // the most of that share alone, since size and length make it steeper still
};
struct TorquePerDegree {
  quantity::Torque low;  // the span; both ends are the measured one where it was measured
  quantity::Torque high;
  // In the uncertainty: √[(high² - low²)/(2 ln(high/low))], or less. It is the root of the mean
  // square of a slope as likely at any ratio between the two, so that the span itself has its share
  // (an unknown factor of an unknown offset; JCGM 100:2008 4.3.7 and 5.1, from memory). Of a metal
  // that is not known, the larger of the two metals', and the span is that of both.
  quantity::Torque counts;
  SlopeFrom from = SlopeFrom::Share;
};

// The shares of the torque at the fastener that one degree makes, at least and at most. Own choice:
// from seated to its torque a bolt turns between 67° and 12.5°. Elastic stretch to 75 % of proof
// of class 8.8 (Shigley's 0.75 Fp, E 206.8 GPa, C 0.2) takes 13° at a stretched length of 2 d and
// 67° at 10 d; lower classes and torques take less, settling and the way to the seat more.
inline constexpr double kLeastShare = 0.015;
inline constexpr double kMostShare = 0.08;

// Estimated without any offset:
//   k = dF · arm     dF   preload gained by 1° (fastener/lost_preload.h, as the re-check takes it)
//                    arm  torque for each newton of preload (fastener/tightening.h)
// low end with the softest stretch and the low friction of the condition, high end with the
// stiffest and the high friction (friction_span), but at most kMostShare of the torque `at`. Where
// size or length is not known the two shares alone are the span; where even the low end is more
// than the share, that alone counts. A bolt that is known to be stiff, by its length or by the
// friction of its condition, counts with more than one of which nothing is known: an exception to
// less data being less sure (verdict.h).
[[nodiscard]] TorquePerDegree estimated_slope(const TestedBolt& bolt, quantity::Torque at);

// The line through the offsets measured it.
[[nodiscard]] TorquePerDegree measured_slope(quantity::Torque per_degree);

// A joint's fastener in this condition; a size that cannot be read is not known.
[[nodiscard]] TestedBolt tested_bolt(const record::Joint& joint, fastener::Condition condition);

}  // namespace finding
