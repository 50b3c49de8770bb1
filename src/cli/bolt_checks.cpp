#include "cli/bolt_checks.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "failure/failure.h"
#include "fastener/nut_factor.h"
#include "fastener/preload_by_stretch.h"
#include "fastener/utilisation.h"
#include "quantity/angle_text.h"
#include "quantity/force_text.h"
#include "quantity/length_text.h"
#include "record/typed_text.h"

namespace cli {
namespace {

using fastener::BoltAssessment;
using fastener::BoltQuestion;
using quantity::Force;
using quantity::StatedTorque;

// `present` is of no use without `needed`.
void needs(const std::string& given, std::string_view option, const std::string& wanted,
           std::string_view needed) {
  if (given.empty() || !wanted.empty()) return;
  throw failure::UsageError(fmt::format("{} needs {} as well", option, needed));
}

std::optional<screen::EngagementCheck> engagement_from(const BoltCheckOptions& options,
                                                       const BoltQuestion& question,
                                                       const BoltAssessment& bolt) {
  needs(options.engaged, "--engaged", options.into, "--into MATERIAL");
  if (options.into.empty()) return std::nullopt;
  auto part = fastener::read_part_material(options.into);
  const auto needed = fastener::engagement_needed(question.thread, bolt.strength, part);
  screen::EngagementCheck check{std::move(part), needed, std::nullopt, std::nullopt};
  if (!options.engaged.empty()) {
    check.engaged = quantity::read_length(options.engaged);
    check.strips =
        fastener::stripping_force(question.thread, bolt.strength, check.part, *check.engaged);
  }
  return check;
}

fastener::SeatRing ring_from(const BoltCheckOptions& options, const fastener::Thread& thread) {
  auto ring = fastener::usual_seat(thread);
  if (!options.face.empty()) ring.face = quantity::read_length(options.face);
  if (!options.hole.empty()) ring.hole = quantity::read_length(options.hole);
  if (options.washer.empty()) return ring;
  return fastener::under_washer(ring, quantity::read_length(options.washer),
                                quantity::read_length(options.washer_thickness));
}

std::optional<screen::SeatCheck> seat_from(const BoltCheckOptions& options,
                                           const BoltQuestion& question,
                                           const BoltAssessment& bolt) {
  needs(options.face, "--face", options.seat, "--seat MATERIAL");
  needs(options.hole, "--hole", options.seat, "--seat MATERIAL");
  needs(options.washer, "--washer", options.seat, "--seat MATERIAL");
  needs(options.washer, "--washer", options.washer_thickness, "--washer-thickness LENGTH");
  needs(options.washer_thickness, "--washer-thickness", options.washer, "--washer LENGTH");
  if (options.seat.empty()) return std::nullopt;
  const auto ring = ring_from(options, question.thread);
  const auto usual = fastener::preload_at_proof_share(
      question.thread, bolt.strength, quantity::Percent::from_ratio(fastener::kWantedProofShare));
  const auto preload =
      bolt.tightened ? bolt.tightened->preload : fastener::PreloadBand{usual, usual};
  return screen::SeatCheck{fastener::read_part_material(options.seat), ring,
                           fastener::head_pressure(preload.low, ring),
                           fastener::head_pressure(preload.high, ring), bolt.tightened.has_value()};
}

std::optional<screen::TurnCheck> turn_from(const BoltCheckOptions& options,
                                           const BoltQuestion& question, const BoltAssessment& bolt,
                                           const std::optional<StatedTorque>& torque) {
  needs(options.turn, "--turn", options.length, "--length LENGTH");
  if (options.turn.empty()) return std::nullopt;
  const auto none = Force::newtons(0.0);
  const auto friction =
      bolt.advice ? bolt.advice->friction
                  : fastener::friction_span(question.condition, fastener::metal_of(question.grade));
  const auto turn = quantity::read_angle(options.turn);
  const auto length = quantity::read_length(options.length);
  const auto limits = fastener::turn_limits(
      question.thread, bolt.strength, friction, length,
      bolt.tightened ? bolt.tightened->preload : fastener::PreloadBand{none, none});
  return screen::TurnCheck{turn, length, limits, fastener::judge_turn(limits, turn), torque};
}

std::optional<screen::LoosenedCheck> loosened_from(const BoltCheckOptions& options,
                                                   const BoltQuestion& question,
                                                   const std::optional<StatedTorque>& torque) {
  if (options.loosened.empty()) return std::nullopt;
  if (!torque) {
    throw failure::UsageError("--loosened needs the torque that tightened the bolt, --torque");
  }
  const auto off = record::read_positive_torque(options.loosened, "--loosened");
  const auto running = question.prevailing.value_or(quantity::Torque::newton_metres(0.0));
  const auto found = fastener::preload_by_loosening(
      question.thread, {torque->torque() - running, off.torque() - running});
  return screen::LoosenedCheck{
      found, *torque, off,
      fastener::nut_factor_from_test(torque->torque() - running, question.thread.diameter(),
                                     found.preload)};
}

// Each measured preload, the middle of its band where it comes from a stretch.
std::vector<Force> measured_preloads(const BoltCheckOptions& options,
                                     const fastener::Thread& thread) {
  std::vector<Force> preloads;
  for (const auto& load : options.loads) preloads.push_back(quantity::read_force(load));
  for (const auto& stretch : options.stretches) {
    const auto band = fastener::preload_by_stretch(thread, quantity::read_length(options.length),
                                                   quantity::read_length(stretch));
    preloads.push_back((band.low + band.high) / 2.0);
  }
  return preloads;
}

std::optional<screen::OwnNutFactor> own_nut_factor_from(const BoltCheckOptions& options,
                                                        const BoltQuestion& question,
                                                        const BoltAssessment& bolt) {
  if (options.loads.empty() && options.stretches.empty()) return std::nullopt;
  if (!options.stretches.empty()) {
    needs(options.stretches.front(), "--stretch", options.length, "--length LENGTH");
  }
  if (!question.torque) {
    throw failure::UsageError("--load and --stretch need the torque of the test, --torque");
  }
  const auto diameter = question.thread.diameter();
  const auto clamping =
      *question.torque - question.prevailing.value_or(quantity::Torque::newton_metres(0.0));
  std::vector<double> factors;
  for (const auto preload : measured_preloads(options, question.thread)) {
    factors.push_back(fastener::nut_factor_from_test(clamping, diameter, preload));
  }
  const auto sample = fastener::sample_of(factors);
  const auto wanted = fastener::preload_at_proof_share(
      question.thread, bolt.strength, quantity::Percent::from_ratio(fastener::kWantedProofShare));
  return screen::OwnNutFactor{sample, !options.stretches.empty(),
                              fastener::torque_by_nut_factor(sample.mean, diameter, wanted),
                              fastener::torque_scatter(question.condition)};
}

}  // namespace

void declare_bolt_checks(CLI::App& command, BoltCheckOptions& options) {
  const auto bind = [&](const char* group, const char* name, std::string& into, const char* says,
                        const char* value) {
    command.add_option(name, into, says)->option_text(value)->group(group);
  };
  constexpr const char* kThread = "Screwed into a part";
  bind(kThread, "--into", options.into,
       "Material of the tapped part, such as \"EN AC-46000\", GJL-250, \"aluminium 240 MPa\": does "
       "its thread strip before the bolt yields?",
       "MATERIAL");
  bind(kThread, "--engaged", options.engaged, "Length of thread that is engaged", "LENGTH");
  constexpr const char* kSeat = "Under the head";
  bind(kSeat, "--seat", options.seat, "Material that the head sits on: does it press in?",
       "MATERIAL");
  bind(kSeat, "--face", options.face,
       "Outer diameter on which head or flange bears; else that of a plain hexagon", "LENGTH");
  bind(kSeat, "--hole", options.hole, "Hole under the head; else a medium one", "LENGTH");
  bind(kSeat, "--washer", options.washer, "Outer diameter of a washer", "LENGTH");
  bind(kSeat, "--washer-thickness", options.washer_thickness, "Its thickness", "LENGTH");
  constexpr const char* kTurn = "Turned by an angle";
  bind(kTurn, "--turn", options.turn,
       "Angle after the torque (after snug without one), such as 90°: is it plausible?", "ANGLE");
  bind(kTurn, "--length", options.length, "Length under the head", "LENGTH");
  constexpr const char* kMeasured = "Measured on this bolt";
  bind(kMeasured, "--loosened", options.loosened,
       "Torque that loosens it right after --torque tightened it: the preload without knowing the "
       "friction",
       "TORQUE");
  command
      .add_option("--load", options.loads,
                  "Preload measured at --torque, such as \"31.2 kN\"; once for each test: its own "
                  "nut factor")
      ->option_text("FORCE")
      ->group(kMeasured);
  command
      .add_option("--stretch", options.stretches,
                  "Stretch measured at --torque, with --length; once for each test")
      ->option_text("LENGTH")
      ->excludes(command.get_option("--load"))
      ->group(kMeasured);
}

screen::BoltChecks checks_from(const BoltCheckOptions& options, const BoltQuestion& question,
                               const BoltAssessment& bolt,
                               const std::optional<StatedTorque>& torque) {
  return {engagement_from(options, question, bolt), seat_from(options, question, bolt),
          turn_from(options, question, bolt, torque), loosened_from(options, question, torque),
          own_nut_factor_from(options, question, bolt)};
}

}  // namespace cli
