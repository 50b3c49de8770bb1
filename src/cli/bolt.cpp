#include "cli/bolt.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "fastener/thread_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/typed_text.h"
#include "screen/bolt_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

using failure::InputError;

fastener::Grade grade_or_refuse(const std::string& text) {
  const auto grade = fastener::read_grade(text);
  if (!grade) {
    throw InputError(
        fmt::format("--grade {} is not known; a property class has two numbers (8.8), an SAE grade "
                    "one (SAE 8); known are {}",
                    quantity::quoted(text), fastener::known_grades()));
  }
  return *grade;
}

struct Span {
  double low = 0.0;
  double high = 0.0;
};

// "0.10..0.16", "0.10-0.16", "0.10 to 0.16" or one number.
Span read_span(const std::string& text, std::string_view option) {
  const auto low = quantity::read_leading_number(quantity::trimmed(text), text);
  Span span{low.value, low.value};
  if (low.rest.empty()) return span;
  std::string_view rest = low.rest;
  for (const std::string_view between : {"..", "-", "–", "to"}) {
    if (!rest.starts_with(between)) continue;
    rest = quantity::trimmed(rest.substr(between.size()));
    break;
  }
  const auto high = quantity::read_leading_number(rest, text);
  if (rest.data() == low.rest.data() || !high.rest.empty() || high.value < low.value) {
    throw InputError(
        fmt::format("{} {}: expected one number or two in rising order, such as 0.10..0.16", option,
                    quantity::quoted(text)));
  }
  span.high = high.value;
  return span;
}

// The friction that was stated, the condition's where one of thread and head was not; nothing where
// none was.
std::optional<fastener::FrictionBand> stated_friction(const BoltOptions& options,
                                                      fastener::Condition condition,
                                                      fastener::Grade grade) {
  using fastener::Friction;
  constexpr fastener::Origin kAsGiven{"as given", fastener::HowKnown::Seen};
  if (!options.friction.empty()) {
    const auto both = read_span(options.friction, "--friction");
    return fastener::FrictionBand::same(both.low, both.high, kAsGiven);
  }
  if (options.thread_friction.empty() && options.head_friction.empty()) return std::nullopt;
  const auto known = fastener::friction_band(condition, fastener::metal_of(grade));
  if (!known && (options.thread_friction.empty() || options.head_friction.empty())) {
    throw InputError(
        fmt::format("no friction is known for {}: give both --thread-friction and --head-friction",
                    fastener::name_of(condition)));
  }
  const auto thread = options.thread_friction.empty()
                          ? Span{known->low.thread(), known->high.thread()}
                          : read_span(options.thread_friction, "--thread-friction");
  const auto head = options.head_friction.empty()
                        ? Span{known->low.head(), known->high.head()}
                        : read_span(options.head_friction, "--head-friction");
  return fastener::FrictionBand{Friction::of(thread.low, head.low),
                                Friction::of(thread.high, head.high), kAsGiven};
}

screen::BoltPage page_from(const BoltOptions& options) {
  fastener::BoltQuestion question{fastener::read_thread(options.size),
                                  grade_or_refuse(options.grade),
                                  fastener::Condition::AsReceived,
                                  std::nullopt,
                                  std::nullopt,
                                  std::nullopt,
                                  std::nullopt};
  if (!options.condition.empty())
    question.condition = record::read_condition_or_refuse(options.condition);
  question.friction = stated_friction(options, question.condition, question.grade);
  if (!options.bearing.empty()) question.bearing = quantity::read_length(options.bearing);
  std::optional<quantity::StatedTorque> torque;
  if (!options.torque.empty()) {
    torque = record::read_positive_torque(options.torque, "--torque");
    question.torque = torque->torque();
  }
  if (!options.prevailing.empty()) {
    question.prevailing = record::read_positive_torque(options.prevailing, "--prevailing").torque();
  }
  auto assessment = fastener::assess(question);
  auto checks = checks_from(options.checks, question, assessment, torque);
  const bool both = !options.friction.empty();
  return {question,
          std::move(assessment),
          torque,
          {both || !options.thread_friction.empty(), both || !options.head_friction.empty()},
          std::move(checks)};
}

}  // namespace

void declare_bolt(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<BoltOptions>();
  command.add_option("THREAD", options->size, "Thread, such as M12x1.75, M10 or 3/8-16")
      ->required();
  command.add_option("--grade", options->grade, "As marked: 8.8, 10.9, A2-70, SAE 5, ASTM A193 B7")
      ->required()
      ->option_text("GRADE");
  command
      .add_option("--torque", options->torque,
                  "What the wrench shows, such as \"80 N·m\"; without it the torque for 75 % of "
                  "proof is given")
      ->option_text("TORQUE");
  command
      .add_option("--condition", options->condition,
                  "dry, oiled, threadlocker, anti-seize or as-received (the default); gives the "
                  "friction")
      ->option_text("WORD");
  command
      .add_option("--prevailing", options->prevailing,
                  "Torque to run a locking nut before it seats; part of what the wrench shows")
      ->option_text("TORQUE");
  command.option_defaults()->group("Friction, where it is known better");
  command
      .add_option("--friction", options->friction,
                  "Friction in thread and under the head instead of the condition's, such as "
                  "0.10..0.16 or 0.12")
      ->option_text("LOW..HIGH");
  command
      .add_option("--thread-friction", options->thread_friction,
                  "Friction in the thread alone, where the two differ")
      ->excludes(command.get_option("--friction"))
      ->option_text("LOW..HIGH");
  command
      .add_option("--head-friction", options->head_friction, "Friction under the turned face alone")
      ->excludes(command.get_option("--friction"))
      ->option_text("LOW..HIGH");
  command
      .add_option("--bearing", options->bearing,
                  "Mean diameter at which the turned face rubs; else that of a plain hexagon")
      ->option_text("LENGTH");
  declare_bolt_checks(command, options->checks);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_bolt(*options, session);
    };
  });
}

int run_bolt(const BoltOptions& options, const terminal::Session& session) {
  const auto bolt = page_from(options);
  if (const auto mismatch = fastener::marking_mismatch(bolt.question.grade, bolt.question.thread)) {
    session.remark(*mismatch);
  }
  session.out() << (session.json() ? screen::bolt_json(bolt)
                                   : screen::bolt_text(bolt, session.page()));
  return failure::kDone;
}

}  // namespace cli
