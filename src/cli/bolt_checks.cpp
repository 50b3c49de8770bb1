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

std::optional<finding::EngagementCheck> engagement_from(const BoltCheckOptions& options,
                                                        const BoltQuestion& question,
                                                        const BoltAssessment& bolt) {
  needs(options.engaged, "--engaged", options.into, "--into MATERIAL");
  if (options.into.empty()) return std::nullopt;
  std::optional<quantity::Length> engaged;
  if (!options.engaged.empty()) engaged = quantity::read_length(options.engaged);
  return finding::engagement_check(question.thread, bolt.strength,
                                   fastener::read_part_material(options.into), engaged);
}

fastener::SeatRing ring_from(const BoltCheckOptions& options, const fastener::Thread& thread) {
  auto ring = fastener::usual_seat(thread);
  if (!options.face.empty()) ring.face = quantity::read_length(options.face);
  if (!options.hole.empty()) ring.hole = quantity::read_length(options.hole);
  if (options.washer.empty()) return ring;
  return fastener::under_washer(ring, quantity::read_length(options.washer),
                                quantity::read_length(options.washer_thickness));
}

std::optional<finding::SeatCheck> seat_from(const BoltCheckOptions& options,
                                            const BoltQuestion& question,
                                            const BoltAssessment& bolt) {
  needs(options.face, "--face", options.seat, "--seat MATERIAL");
  needs(options.hole, "--hole", options.seat, "--seat MATERIAL");
  needs(options.washer, "--washer", options.seat, "--seat MATERIAL");
  needs(options.washer, "--washer", options.washer_thickness, "--washer-thickness LENGTH");
  needs(options.washer_thickness, "--washer-thickness", options.washer, "--washer LENGTH");
  if (options.seat.empty()) return std::nullopt;
  std::optional<fastener::PreloadBand> preload;
  if (bolt.tightened) preload = bolt.tightened->preload;
  return finding::seat_check(question.thread, bolt.strength,
                             fastener::read_part_material(options.seat),
                             ring_from(options, question.thread), preload);
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

// Each measured preload; a load has no band, a stretch that of its section and length.
std::vector<fastener::PreloadBand> measured_preloads(const BoltCheckOptions& options,
                                                     const fastener::Thread& thread) {
  std::vector<fastener::PreloadBand> preloads;
  for (const auto& load : options.loads) {
    const auto force = quantity::read_force(load);
    preloads.push_back({force, force});
  }
  for (const auto& stretch : options.stretches) {
    preloads.push_back(fastener::preload_by_stretch(thread, quantity::read_length(options.length),
                                                    quantity::read_length(stretch)));
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
  std::vector<double> least;
  std::vector<double> factors;
  std::vector<double> most;
  for (const auto& [low, high] : measured_preloads(options, question.thread)) {
    least.push_back(fastener::nut_factor_from_test(clamping, diameter, high));
    factors.push_back(fastener::nut_factor_from_test(clamping, diameter, (low + high) / 2.0));
    most.push_back(fastener::nut_factor_from_test(clamping, diameter, low));
  }
  const auto sample = fastener::sample_of(factors);
  std::optional<fastener::FactorBand> by_stretch;
  if (!options.stretches.empty()) {
    by_stretch =
        fastener::FactorBand{fastener::sample_of(least).mean, fastener::sample_of(most).mean};
  }
  const auto wanted = fastener::preload_at_proof_share(
      question.thread, bolt.strength, quantity::Percent::from_ratio(fastener::kWantedProofShare));
  return screen::OwnNutFactor{sample, by_stretch,
                              fastener::torque_by_nut_factor(sample.mean, diameter, wanted),
                              fastener::torque_scatter(question.condition)};
}

}  // namespace

void declare_bolt_checks(CLI::App& command, BoltCheckOptions& options) {
  const auto bind = [&](const char* group, const char* name, std::string& into, const char* says,
                        const char* value) {
    command.add_option(name, into, says)->option_text(value)->group(group);
  };
  bind(kScrewedIntoGroup, "--into", options.into,
       "Material of the tapped part, such as \"EN AC-46000\", GJL-250, \"aluminium 240 MPa\": does "
       "its thread strip before the bolt yields?",
       "MATERIAL");
  bind(kScrewedIntoGroup, "--engaged", options.engaged, "Length of thread that is engaged",
       "LENGTH");
  bind(kUnderHeadGroup, "--seat", options.seat, "Material that the head sits on: does it press in?",
       "MATERIAL");
  bind(kUnderHeadGroup, "--face", options.face,
       "Outer diameter on which head or flange bears; else that of a plain hexagon", "LENGTH");
  bind(kUnderHeadGroup, "--hole", options.hole, "Hole under the head; else a medium one", "LENGTH");
  bind(kUnderHeadGroup, "--washer", options.washer, "Outer diameter of a washer", "LENGTH");
  bind(kUnderHeadGroup, "--washer-thickness", options.washer_thickness, "Its thickness", "LENGTH");
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
