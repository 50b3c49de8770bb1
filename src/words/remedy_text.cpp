#include "words/remedy_text.h"

#include <fmt/format.h>

#include "finding/not_to_be_tested.h"
#include "finding/position_search.h"
#include "finding/what_would_help.h"
#include "quantity/number_text.h"

namespace words {
namespace {

using finding::Advice;
using finding::Remedy;
using quantity::TorqueUnit;

// What the remedy is for: it goes into the sentence as "would decide it".
struct Sentence {
  TorqueUnit scale;
  double graduation;  // of the wrench as it is
  TorqueUnit graduation_unit;
  std::string_view effect;

  [[nodiscard]] std::string amount(double setting) const {
    return fmt::format("{} {}", quantity::write_rounded(setting), quantity::name_of(scale));
  }

  [[nodiscard]] static std::string_view how_far(bool until_past) {
    return until_past ? ", on until the mark is past," : "";
  }

  std::string operator()(const finding::OnePullFurther& pull) const {
    return fmt::format("one pull further, at {}, that sees the mark past the line would {}",
                       amount(pull.setting), effect);
  }
  std::string operator()(const finding::FinerSteps& steps) const {
    return fmt::format("{} steps between {} and {}{} would {}; back it off first",
                       amount(steps.step), quantity::write_rounded(steps.from),
                       quantity::write_rounded(steps.to), how_far(steps.until_past), effect);
  }
  std::string operator()(const finding::FinerScale& scale_needed) const {
    return fmt::format("steps of {}{} would {}, which takes a finer scale than this one's {} {}",
                       amount(scale_needed.step), how_far(scale_needed.until_past), effect,
                       quantity::write_rounded(graduation), quantity::name_of(graduation_unit));
  }
  std::string operator()(const finding::BetterWrench& wrench) const {
    return fmt::format("a ±{} wrench in {} steps{} would {}", quantity::write_exact(wrench.better),
                       amount(wrench.step), how_far(wrench.until_past), effect);
  }
  std::string operator()(const finding::OtherEnd& end) const {
    return end.above
               ? fmt::format("to {}, go on above {} in steps of {} until the mark lines up", effect,
                             amount(end.from), amount(end.step))
               : fmt::format("to {}, back it off and start again well below {}, in steps of {}",
                             effect, amount(end.from), amount(end.step));
  }
  std::string operator()(const finding::Offsets& offsets) const {
    return fmt::format("finer steps alone would not {}: {} would; back it off first", effect,
                       offsets.noted == 0
                           ? "how far the mark stands off at three settings or more, such as 6°,"
                           : "more readings with an offset near the mark, on until it is past,");
  }
  std::string operator()(const finding::TooNear& /*none*/) const {
    return fmt::format("nothing at hand would {}, not even a ±1% wrench: treat it as not known",
                       effect);
  }
};

// Why steps alone do not do it: said before the wrench that would.
std::string no_step(const Advice& advice, const finding::Finding& finding, TorqueUnit unit) {
  const auto wrench = record::permissible_deviation(*finding.wrench);
  return fmt::format(
      "steps alone, however fine, do not decide it: wrench (±{}) and stopping late make ±{} and "
      "the "
      "nearest limit is {} away; ",
      quantity::write_exact(wrench),
      fmt::format("{} {}", quantity::write_uncertainty(quantity::in_unit(advice.floor, unit)),
                  quantity::name_of(unit)),
      quantity::write_rounded(advice.margin, unit));
}

// Where no pull above the last one may follow, or can: what to do instead.
std::optional<std::string> why_not_above(const finding::JointState& joint,
                                         const finding::Finding& finding) {
  const auto proposal = finding::next_setting_at(joint, finding.entry->content, *finding.wrench);
  const auto* stop = std::get_if<finding::Stop>(&proposal);
  if (stop == nullptr) return std::nullopt;
  const bool is_end = stop->reason == finding::StopReason::Ceiling ||
                      stop->reason == finding::StopReason::WrenchEnds;
  return is_end ? std::optional(stop->text) : std::nullopt;
}

bool goes_on_above(const finding::Remedy& remedy) {
  const auto* end = std::get_if<finding::OtherEnd>(&remedy);
  return end != nullptr && end->above;
}

}  // namespace

std::vector<std::string> help_lines(const finding::JointState& joint,
                                    const finding::Finding& finding) {
  if (finding.graded.grade == finding::Grade::X) return {};
  const auto& measured = finding.entry->content;
  if (!finding::not_to_be_tested(joint, measured.position).empty()) return {};
  finding::Tested tested{measured, *finding.wrench, finding.torque};
  if (const auto ceiling = finding::ceiling_at(joint, measured)) tested.ceiling = ceiling->torque;
  Sentence sentence{measured.unit, finding.wrench->graduation, finding.wrench->scale.unit,
                    "decide it"};
  std::vector<std::string> lines;
  std::string_view falls_short;
  if (finding.verdict == finding::Verdict::Undecided && finding.window) {
    if (const auto advice = finding::what_would_decide(tested, *finding.window)) {
      if (goes_on_above(advice->remedy)) {
        if (auto stop = why_not_above(joint, finding)) return {*std::move(stop)};
      }
      const bool steps_alone = std::holds_alternative<finding::OnePullFurther>(advice->remedy) ||
                               std::holds_alternative<finding::FinerSteps>(advice->remedy) ||
                               std::holds_alternative<finding::FinerScale>(advice->remedy) ||
                               std::holds_alternative<finding::OtherEnd>(advice->remedy);
      lines.push_back((steps_alone ? "" : no_step(*advice, finding, joint.unit)) +
                      std::visit(sentence, advice->remedy));
      if (!steps_alone) falls_short = ", but not decide it";
      // The other end serves both ends.
      if (std::holds_alternative<finding::OtherEnd>(advice->remedy)) return lines;
    }
  }
  if (const auto remedy = finding::what_would_narrow(tested)) {
    if (goes_on_above(*remedy)) {
      if (auto stop = why_not_above(joint, finding)) return {*std::move(stop)};
    }
    if (std::holds_alternative<finding::Offsets>(*remedy)) falls_short = {};
    const auto narrower = std::string("give a bracket fine enough for grade A");
    const bool is_the_same = !lines.empty() && lines.back() == std::visit(sentence, *remedy);
    const auto effect =
        is_the_same ? "decide it and " + narrower : fmt::format("{}{}", narrower, falls_short);
    sentence.effect = effect;
    if (is_the_same) lines.pop_back();
    lines.push_back(std::visit(sentence, *remedy));
  }
  return lines;
}

}  // namespace words
