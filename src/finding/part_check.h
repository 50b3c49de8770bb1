#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fastener/head_pressure.h"
#include "fastener/part_material.h"
#include "fastener/preload_band.h"
#include "fastener/thread_engagement.h"
#include "finding/known_bolt.h"
#include "record/joint.h"
#include "record/specified.h"

namespace finding {

// What the parts of a joint bear of what the bolt does to them.
enum class PartBears {
  Yes,
  NotYield,        // the torque, but the thread strips before the bolt yields
  NotLowFriction,  // not the preload that the torque makes where friction is low
  Never            // not even the one where friction is high
};

// Does the thread of the part strip before the bolt yields?
struct EngagementCheck {
  fastener::PartMaterial part;
  fastener::EngagementNeeded needed;
  std::optional<quantity::Length> engaged;
  std::optional<fastener::StrippingForce> strips;  // where the engagement is given
};
[[nodiscard]] EngagementCheck engagement_check(const fastener::Thread& thread,
                                               const fastener::Strength& bolt,
                                               fastener::PartMaterial part,
                                               std::optional<quantity::Length> engaged);

// Against a preload: the high end of the stripping force counts, as if all threads bore alike, so
// that what is called too much is too much for the best of threads. Yes where the engagement is not
// known.
[[nodiscard]] PartBears bears(const EngagementCheck& check,
                              const std::optional<fastener::PreloadBand>& preload);

// Does the head press into its seat?
struct SeatCheck {
  fastener::PartMaterial seat;
  fastener::SeatRing ring;
  quantity::Stress low;   // at the preload of the high friction
  quantity::Stress high;  // at that of the low friction
  bool at_torque = true;  // else at 75 % of proof
};
// Without a preload at the one for 75 % of proof.
[[nodiscard]] SeatCheck seat_check(const fastener::Thread& thread, const fastener::Strength& bolt,
                                   fastener::PartMaterial seat, const fastener::SeatRing& ring,
                                   const std::optional<fastener::PreloadBand>& preload);

// Yes where no limit is known.
[[nodiscard]] PartBears bears(const SeatCheck& check);

// One sentence each.
[[nodiscard]] std::string answer(const EngagementCheck& check);
[[nodiscard]] std::string answer(const SeatCheck& check);

// Which part of a joint is spoken of.
enum class Part { Thread, Seat };

// What is known of a part, for one specification or none.
struct PartAnswer {
  Part part = Part::Thread;
  PartBears bears = PartBears::Yes;
  std::string says;
};

// The parts that a joint names (record::Joint::into, seat), against the highest torque that the
// specification asks for; an angle step pulls the bolt to yield at most, so the preload is taken as
// the yield load there. A bolt or a material that is not known has no answer.
[[nodiscard]] std::vector<PartAnswer> part_answers(const record::Joint& joint,
                                                   const record::Specified* specified);

}  // namespace finding
