#include "cli/bolt.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/exit_code.h"
#include "cli/label.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "fastener/thread_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "report/bolt_report.h"

namespace cli {
namespace {

using quantity::InputError;

fastener::Grade grade_or_refuse(const std::string& text) {
  const auto grade = fastener::read_grade(text);
  if (!grade) {
    throw InputError(fmt::format("--grade {} is not known; known are {}", quantity::quoted(text),
                                 fastener::known_grades()));
  }
  return *grade;
}

// "0.10..0.16", "0.10-0.16", "0.10 to 0.16" or one number.
fastener::FrictionBand read_friction(const std::string& text) {
  const auto low = quantity::read_leading_number(quantity::trimmed(text), text);
  fastener::FrictionBand band{low.value, low.value, {"as given", fastener::HowKnown::Seen}};
  if (!low.rest.empty()) {
    std::string_view rest = low.rest;
    for (const std::string_view between : {"..", "-", "–", "to"}) {
      if (!rest.starts_with(between)) continue;
      rest = quantity::trimmed(rest.substr(between.size()));
      break;
    }
    const auto high = quantity::read_leading_number(rest, text);
    if (rest.data() == low.rest.data() || !high.rest.empty() || high.value < low.value) {
      throw InputError(fmt::format(
          "--friction {}: expected one number or two in rising order, such as 0.10..0.16",
          quantity::quoted(text)));
    }
    band.high = high.value;
  }
  (void)fastener::Friction::same(band.low);  // refuses what cannot be
  (void)fastener::Friction::same(band.high);
  return band;
}

report::BoltPage page_from(const BoltOptions& options) {
  fastener::BoltQuestion question{fastener::read_thread(options.size),
                                  grade_or_refuse(options.grade),
                                  fastener::Condition::AsReceived,
                                  std::nullopt,
                                  std::nullopt,
                                  std::nullopt,
                                  std::nullopt};
  if (!options.condition.empty()) question.condition = read_condition_or_refuse(options.condition);
  if (!options.friction.empty()) question.friction = read_friction(options.friction);
  if (!options.bearing.empty()) question.bearing = quantity::read_length(options.bearing);
  std::optional<quantity::StatedTorque> torque;
  if (!options.torque.empty()) {
    torque = read_positive_torque(options.torque, "--torque");
    question.torque = torque->torque();
  }
  if (!options.prevailing.empty()) {
    question.prevailing = read_positive_torque(options.prevailing, "--prevailing").torque();
  }
  auto assessment = fastener::assess(question);
  return {question, std::move(assessment), torque};
}

}  // namespace

void declare_bolt(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<BoltOptions>();
  auto* command = app.add_subcommand(
      "bolt",
      "What a torque does to a bolt: preload, share of proof and yield, the torques that make "
      "sense; needs no logbook");
  command->add_option("THREAD", options->size, "Thread, such as M12x1.75, M10 or 3/8-16")
      ->required()
      ->option_text("THREAD");
  command->add_option("--grade", options->grade, "As marked: 8.8, 10.9, A2-70, SAE 5, ASTM A193 B7")
      ->required()
      ->option_text("GRADE");
  command
      ->add_option("--torque", options->torque,
                   "What the wrench shows, such as \"80 N·m\"; without it the torque for 75 % of "
                   "proof is given")
      ->option_text("TORQUE");
  command
      ->add_option("--condition", options->condition,
                   "dry, oiled, threadlocker, anti-seize or as-received (the default); gives the "
                   "friction")
      ->option_text("WORD");
  command
      ->add_option("--friction", options->friction,
                   "Friction instead of the condition's, such as 0.10..0.16")
      ->option_text("LOW..HIGH");
  command
      ->add_option("--bearing", options->bearing,
                   "Mean diameter at which the turned face rubs; else that of a plain hexagon")
      ->option_text("LENGTH");
  command
      ->add_option("--prevailing", options->prevailing,
                   "Torque to run a locking nut before it seats; part of what the wrench shows")
      ->option_text("TORQUE");
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_bolt(*options, session); };
  });
}

int run_bolt(const BoltOptions& options, const Session& session) {
  const auto bolt = page_from(options);
  session.out() << (session.json() ? report::bolt_json(bolt)
                                   : report::bolt_text(bolt, session.page()));
  return kDone;
}

}  // namespace cli
