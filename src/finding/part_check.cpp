#include "finding/part_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/bolt_assessment.h"
#include "fastener/friction.h"
#include "fastener/utilisation.h"
#include "quantity/number_text.h"

namespace finding {
namespace {

using fastener::FirstToFail;
using fastener::PartMaterial;
using fastener::PreloadBand;
using quantity::write_rounded;

std::string millimetres(quantity::Length length) {
  return write_rounded(length.in_millimetres(), 3) + " mm";
}

std::string kilonewtons(quantity::Force low, quantity::Force high) {
  return quantity::write_span(low.in_newtons() / 1000.0, high.in_newtons() / 1000.0, 3) + " kN";
}

// The material that a joint names; one that this program does not know is none.
std::optional<PartMaterial> known_material(const std::string& name) {
  if (name.empty()) return std::nullopt;
  try {
    return fastener::read_part_material(name);
  } catch (const failure::InputError&) {
    return std::nullopt;
  }
}

// The preload that a specification leads to, over the span of friction of its condition; nothing
// without a torque.
std::optional<PreloadBand> specified_preload(const KnownBolt& bolt,
                                             const record::Specified& specified) {
  std::optional<quantity::Torque> highest;
  for (const auto& step : specified.procedure.steps) {
    if (std::holds_alternative<record::AngleStep>(step)) {
      const auto yields =
          fastener::assess({bolt.thread, bolt.grade, specified.condition, {}, {}, {}, {}})
              .yield_load;
      return PreloadBand{yields, yields};
    }
    if (const auto* torque = std::get_if<record::TorqueStep>(&step)) {
      const auto asked = quantity::torque_of(torque->target.value, torque->target.unit);
      if (!highest || asked > *highest) highest = asked;
    }
  }
  if (!highest) return std::nullopt;
  return fastener::preload_band(
      bolt.thread, fastener::usual_bearing_diameter(bolt.thread),
      fastener::friction_span(specified.condition, fastener::metal_of(bolt.grade)), *highest);
}

std::string thread_answer(const EngagementCheck& check, PartBears bears,
                          const std::optional<PreloadBand>& preload) {
  auto says = "thread: " + answer(check);
  if (bears != PartBears::NotLowFriction && bears != PartBears::Never) return says;
  return fmt::format("{}; it strips at {} and what is specified pulls {}: {}", says,
                     kilonewtons(check.strips->low, check.strips->high),
                     kilonewtons(preload->low, preload->high),
                     bears == PartBears::Never ? "it strips whatever the friction"
                                               : "it strips where the friction is low");
}

}  // namespace

EngagementCheck engagement_check(const fastener::Thread& thread, const fastener::Strength& bolt,
                                 PartMaterial part, std::optional<quantity::Length> engaged) {
  const auto needed = fastener::engagement_needed(thread, bolt, part);
  EngagementCheck check{std::move(part), needed, engaged, std::nullopt};
  if (engaged) check.strips = fastener::stripping_force(thread, bolt, check.part, *engaged);
  return check;
}

PartBears bears(const EngagementCheck& check, const std::optional<PreloadBand>& preload) {
  if (!check.strips) return PartBears::Yes;
  if (preload && preload->low > check.strips->high) return PartBears::Never;
  if (preload && preload->high > check.strips->high) return PartBears::NotLowFriction;
  return fastener::first_to_fail(check.needed, *check.engaged) == FirstToFail::Thread
             ? PartBears::NotYield
             : PartBears::Yes;
}

SeatCheck seat_check(const fastener::Thread& thread, const fastener::Strength& bolt,
                     PartMaterial seat, const fastener::SeatRing& ring,
                     const std::optional<PreloadBand>& preload) {
  const auto usual = fastener::preload_at_proof_share(
      thread, bolt, quantity::Percent::from_ratio(fastener::kWantedProofShare));
  const auto pulls = preload ? *preload : PreloadBand{usual, usual};
  return {std::move(seat), ring, fastener::head_pressure(pulls.low, ring),
          fastener::head_pressure(pulls.high, ring), preload.has_value()};
}

PartBears bears(const SeatCheck& check) {
  const auto& limit = check.seat.seat_limit;
  if (!limit || check.high <= *limit) return PartBears::Yes;
  return check.low > *limit ? PartBears::Never : PartBears::NotLowFriction;
}

std::string answer(const EngagementCheck& check) {
  const auto needed = fmt::format("{} hold until it yields, {} until it breaks",
                                  millimetres(check.needed.low), millimetres(check.needed.high));
  if (!check.engaged) {
    return fmt::format("engaged in {}: {}", check.part.name, needed);
  }
  const auto engaged = fmt::format("{} in {}", millimetres(*check.engaged), check.part.name);
  switch (fastener::first_to_fail(check.needed, *check.engaged)) {
    case FirstToFail::Bolt:
      return fmt::format("{}: the bolt breaks before the thread strips; {}", engaged, needed);
    case FirstToFail::ThreadPerhaps:
      return fmt::format(
          "{}: the bolt yields first, pulled further the thread may strip before it breaks; {}",
          engaged, needed);
    case FirstToFail::Thread:
      return fmt::format("{}: the thread strips before the bolt yields; {}", engaged, needed);
  }
  return {};
}

std::string answer(const SeatCheck& check) {
  const auto pressure =
      fmt::format("head on {} at {}: {} MPa", check.seat.name,
                  check.at_torque ? "this torque" : "75 % of proof",
                  quantity::write_span(check.low.in_megapascals(), check.high.in_megapascals(), 3));
  if (!check.seat.seat_limit) {
    return fmt::format("{}; no limit is known for a material given by its strength alone",
                       pressure);
  }
  const auto limit = fmt::format("the seat bears {} MPa",
                                 write_rounded(check.seat.seat_limit->in_megapascals(), 3));
  switch (bears(check)) {
    case PartBears::Yes:
    case PartBears::NotYield:  // of a thread, never of a seat
      break;
    case PartBears::Never:
      return fmt::format("{}, {}: it presses in; a flange, a washer or a lower torque helps",
                         pressure, limit);
    case PartBears::NotLowFriction:
      return fmt::format("{}, {}: it presses in where the friction is low", pressure, limit);
  }
  return fmt::format("{}, {}: holds", pressure, limit);
}

std::vector<PartAnswer> part_answers(const record::Joint& joint,
                                     const record::Specified* specified) {
  std::vector<PartAnswer> answers;
  const auto bolt = known_bolt(joint);
  if (!bolt) return answers;
  const auto preload = specified == nullptr ? std::nullopt : specified_preload(*bolt, *specified);
  if (auto part = known_material(joint.into)) {
    const auto check =
        engagement_check(bolt->thread, bolt->strength, *std::move(part), joint.engaged);
    const auto found = bears(check, preload);
    answers.push_back({Part::Thread, found, thread_answer(check, found, preload)});
  }
  if (auto seat = known_material(joint.seat)) {
    auto ring = fastener::usual_seat(bolt->thread);
    if (joint.face && *joint.face > ring.hole) ring.face = *joint.face;
    const auto check = seat_check(bolt->thread, bolt->strength, *std::move(seat), ring, preload);
    answers.push_back({Part::Seat, bears(check), answer(check)});
  }
  return answers;
}

}  // namespace finding
