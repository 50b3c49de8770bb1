#include "words/verdict_text.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "quantity/number_text.h"
#include "record/address.h"
#include "words/found_value.h"

namespace words {
namespace {

constexpr std::string_view kPenLine = "the width of the pen line";

// What of its uncertainty weighs most, in words.
std::string_view largest_part(const finding::FoundTorque& torque) {
  const auto& budget = torque.budget;
  std::pair<quantity::Torque, std::string_view> largest = {budget.reading,
                                                           "the steps of its readings"};
  for (const auto& part : {std::pair{budget.wrench, std::string_view("the wrench")},
                           {budget.mark, kPenLine},
                           {budget.method, "stopping late"},
                           {budget.grip, "the grip"},
                           {budget.running, "the running torque"}}) {
    if (part.first > largest.first) largest = part;
  }
  return largest.second;
}

}  // namespace

std::string limits_words(const record::ToleranceWindow& window, quantity::TorqueUnit unit) {
  const auto number = [&](quantity::Torque torque) {
    return quantity::write_rounded(quantity::in_unit(torque, unit));
  };
  if (window.low && window.high) {
    return fmt::format("{} to {}", number(*window.low), number(*window.high));
  }
  if (window.low) return "min " + number(*window.low);
  return window.high ? "max " + number(*window.high) : "";
}

std::string verdict_word(const finding::PositionState& position, const finding::Finding& finding) {
  if (position.specified == nullptr) return "no specification";
  return fmt::format("{}{}", finding::word_of(finding.verdict),
                     position.disputed_findings.empty() ? "" : ", disputed");
}

std::string disputed_findings(const finding::PositionState& position, quantity::TorqueUnit unit) {
  std::string text;
  for (const auto place : position.disputed_findings) {
    const auto& finding = position.findings[place];
    const auto& stamp = finding.entry->stamp;
    text += fmt::format("{}{} by {} {} (line {}, {})", text.empty() ? "DISPUTED: " : ", ",
                        finding::word_of(finding.verdict), found_words(finding.torque, unit),
                        quantity::name_of(unit), stamp.line, stamp.by);
  }
  return text.empty() ? text : text + "; until one is struck the worse counts";
}

std::string verdict_text(const finding::JointState& joint, const finding::Finding& finding) {
  const auto& position = joint.at(finding.entry->content.position);
  const auto unit = quantity::name_of(joint.unit);
  const auto limits = finding.window ? limits_words(*finding.window, joint.unit) : "";
  return fmt::format("{} {} {}: {}{}, grade {}",
                     record::write_address(joint.joint->code, position.position),
                     found_words(finding.torque, joint.unit), unit, verdict_word(position, finding),
                     limits.empty() ? "" : fmt::format(" ({} {})", limits, unit),
                     finding::letter_of(finding.graded.grade));
}

std::string read_well_known_badly(const finding::Finding& finding) {
  constexpr double kBadly = 0.15;
  const auto& torque = finding.torque;
  if (finding.graded.grade != finding::Grade::A || !torque.best) return {};
  const double share = torque.budget.expanded() / *torque.best;
  if (!(share > kBadly)) return {};
  const auto largest = largest_part(torque);
  std::string text = fmt::format(
      "the grade is about how it was read; that it is known to ±{:.0f} % only comes most of all "
      "from "
      "{}",
      100.0 * share, largest);
  if (largest == kPenLine && torque.slope.from == finding::SlopeFrom::Share) {
    text += "; size and length under the head on record would tell more of it";
  }
  return text;
}

}  // namespace words
