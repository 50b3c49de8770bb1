#include "screen/finding_answer.h"

#include <fmt/format.h>

#include <utility>

#include "finding/in_line.h"
#include "finding/not_to_be_tested.h"
#include "quantity/number_text.h"
#include "words/adapter_in_words.h"
#include "words/found_value.h"
#include "words/remedy_text.h"

namespace screen {
namespace {

using finding::Basis;

std::string found_line(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  const std::string value = words::found_side_by_side(torque, unit);
  switch (torque.basis) {
    case Basis::LowerBound:
      return "found above " + value + " (the mark never lined up)";
    case Basis::UpperBound:
      return "found at or below " + value + " (the mark was there at once)";
    case Basis::Bracket:
    case Basis::Line:
      break;
  }
  const double low = quantity::in_unit(*torque.low, unit);
  const double high = quantity::in_unit(*torque.high, unit);
  if (torque.basis == Basis::Line) {
    // An interval has the digits of an uncertainty, the settings of a bracket their own.
    const int place = quantity::last_place_of((high - low) / 2.0);
    return fmt::format("found {}, by the line through the offsets {} to {} {}", value,
                       quantity::write_to_place(low, place), quantity::write_to_place(high, place),
                       quantity::name_of(unit));
  }
  auto line = fmt::format("found {}, bracket {} {}", value, quantity::write_span(low, high),
                          quantity::name_of(unit));
  if (const auto& enclosed = torque.enclosed;
      enclosed && (enclosed->from != *torque.low || enclosed->to != *torque.high)) {
    line += fmt::format("; short and past enclose it from {}",
                        quantity::write_span(quantity::in_unit(enclosed->from, unit),
                                             quantity::in_unit(enclosed->to, unit)));
  }
  return line;
}

std::string adapter_line(const record::Measured& measured) {
  return fmt::format("through {}: the fastener gets {:.4g} times the setting",
                     words::adapter_in_words(measured.adapter), measured.adapter.torque_ratio);
}

std::string uncertainty_line(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  const auto zero = quantity::Torque::newton_metres(0);
  std::string parts;
  const auto add = [&](std::string_view name, quantity::Torque part) {
    if (!(part > zero)) return;
    parts += fmt::format("{}{} {}", parts.empty() ? "" : ", ", name,
                         quantity::write_uncertainty(quantity::in_unit(part, unit)));
  };
  const auto& budget = torque.budget;
  add(torque.basis == Basis::Line ? "line"
      : torque.enclosed           ? "short to past"
                                  : "bracket",
      budget.reading);
  add("wrench", budget.wrench);
  add("mark", budget.mark);
  add("stopping late", budget.method);
  add("grip", budget.grip);
  add("running torque", budget.running);
  return fmt::format("uncertainty ±{} {} (2u; u from {})", words::uncertainty_value(torque, unit),
                     quantity::name_of(unit), parts);
}

// Where the mark's part comes from; empty where it has none.
std::string mark_line(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  if (!(torque.budget.mark > quantity::Torque::newton_metres(0))) return {};
  const auto rate = [&](quantity::Torque per_degree) {
    return quantity::write_uncertainty(quantity::in_unit(per_degree, unit));
  };
  const auto& slope = torque.slope;
  // Two digits each, or as many as tell them apart.
  const auto span =
      rate(slope.low) != rate(slope.high)
          ? fmt::format("{} to {}", rate(slope.low), rate(slope.high))
          : quantity::write_span(quantity::in_unit(slope.low, unit),
                                 quantity::in_unit(slope.high, unit), quantity::kUncertaintyDigits);
  std::string text = fmt::format(
      "mark: half a pen line of {} mm is {:.2g}° at this head, and a degree counts with {} {}",
      quantity::write_exact(finding::kPenWidth.in_millimetres()), torque.mark_error.in_degrees(),
      rate(slope.counts), quantity::name_of(unit));
  switch (slope.from) {
    case finding::SlopeFrom::Offsets:
      text += ", by the offsets";
      break;
    case finding::SlopeFrom::Bolt:
      text += fmt::format(" ({} for this size and length)", span);
      break;
    case finding::SlopeFrom::Share:
      text += fmt::format(" ({}: the length is not known)", span);
      break;
    case finding::SlopeFrom::TooStiff:
      text += ", the most that is taken: by size and length it is stiffer still";
      break;
  }
  return text;
}

// The second question, apart from the first.
std::string tightened_line(const finding::Finding& finding, quantity::TorqueUnit unit) {
  std::string text = fmt::format(
      "it was tightened to about {} {}: found over {} to {}, the method's published range",
      words::tightened_words(finding::tightened_to(finding.torque), unit), quantity::name_of(unit),
      finding::kLeastFoundOverTightened, finding::kMostFoundOverTightened);
  if (finding.tightened_verdict != finding::Verdict::NotComparable) {
    text += fmt::format(": {}", finding::word_of(finding.tightened_verdict));
  }
  return text;
}

std::string in_line_line(const finding::Finding& finding) {
  if (!finding.window ||
      !finding::in_line_at_specification(finding.entry->content, *finding.window)) {
    return {};
  }
  return "in line at the specification: by US Army TB 43-0218 the torque was right";
}

std::string verdict_line(const finding::JointState& joint, const finding::Finding& finding,
                         quantity::TorqueUnit unit) {
  const auto* specified = joint.at(finding.entry->content.position).specified;
  if (specified == nullptr) return "no specification to compare with";
  std::string line =
      fmt::format("specified {}: what it takes today is {}",
                  record::write_exact(specified->procedure), finding::word_of(finding.verdict));
  if (const auto& prevailing = finding.entry->content.prevailing) {
    line += fmt::format(", running torque {} allowed for", quantity::write_exact(*prevailing));
  }
  if (finding.ratio) line += fmt::format(", found is {:.2f} of it", *finding.ratio);
  if (const auto close = words::closer_than_shown(finding, unit); !close.empty()) {
    line += "; " + close;
  }
  return line;
}

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

// A finding that was read well and is not well known for all that; empty for others.
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

// What would better a bracket is said once, with its figures (words/remedy_text.h).
bool is_about_the_bracket(const finding::GradeRule& rule) {
  return rule.name == "wide bracket" || rule.name == "fair bracket" ||
         rule.name == "one bound only";
}

}  // namespace

std::string finding_text(const finding::JointState& joint, const finding::Finding& finding,
                         const words::Page& page) {
  const auto unit = joint.unit;
  std::string text = words::wrapped(found_line(finding.torque, unit), page.width, "  ", "    ");
  if (const auto& measured = finding.entry->content; record::is_used(measured.adapter)) {
    text += words::wrapped(adapter_line(measured), page.width, "  ", "    ");
  }
  if (const auto why = finding::why_of(finding.torque.line_use); !why.empty()) {
    text += words::wrapped(fmt::format("offsets not used: {}", why), page.width, "  ", "    ");
  }
  const auto add = [&](const std::string& line) {
    if (!line.empty()) text += words::wrapped(line, page.width, "  ", "    ");
  };
  add(uncertainty_line(finding.torque, unit));
  add(mark_line(finding.torque, unit));
  add(verdict_line(joint, finding, unit));
  add(in_line_line(finding));
  if (finding.torque.best) add(tightened_line(finding, unit));
  text += fmt::format("  grade {}\n", finding::letter_of(finding.graded.grade));
  const auto help = words::help_lines(joint, finding);
  const auto no_test = finding::why_not_to_be_tested(joint, finding.entry->content.position);
  if (const auto badly = read_well_known_badly(finding); !badly.empty()) {
    text += words::wrapped(badly, page.width, "    - ", "      ");
  }
  for (const auto* rule : finding.graded.rules) {
    text += words::wrapped(no_test.empty() && (help.empty() || !is_about_the_bracket(*rule))
                               ? fmt::format("{}; {}", rule->why, rule->better)
                               : std::string(rule->why),
                           page.width, "    - ", "      ");
  }
  if (!no_test.empty()) text += words::wrapped(no_test, page.width, "  ", "    ");
  for (const auto& line : help) text += words::wrapped(line, page.width, "  ", "    ");
  return text;
}

}  // namespace screen
