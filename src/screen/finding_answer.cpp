#include "screen/finding_answer.h"

#include <fmt/format.h>

#include "quantity/number_text.h"
#include "words/adapter_in_words.h"
#include "words/joint_heading.h"
#include "words/remedy_text.h"

namespace screen {
namespace {

using finding::Basis;

std::string found_line(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  const std::string value = words::side_by_side(torque.reference(), unit);
  switch (torque.basis) {
    case Basis::LowerBound:
      return "found above " + value + " (the mark never lined up)";
    case Basis::UpperBound:
      return "found at or below " + value + " (the mark was there at once)";
    case Basis::Bracket:
    case Basis::Line:
      break;
  }
  return fmt::format("found {}, {} {} to {}", value,
                     torque.basis == Basis::Line ? "by the line through the offsets" : "bracket",
                     quantity::write_rounded(quantity::in_unit(*torque.low, unit)),
                     quantity::write_rounded(*torque.high, unit));
}

std::string adapter_line(const record::Measured& measured) {
  return fmt::format("through {}: the fastener gets {:.4g} times the setting",
                     words::adapter_in_words(measured.adapter), measured.adapter.torque_ratio);
}

std::string uncertainty_line(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  const auto text = [&](quantity::Torque part) {
    return quantity::write_rounded(part, unit, quantity::kUncertaintyDigits);
  };
  const auto& budget = torque.budget;
  std::string reading;
  if (torque.best) {
    reading = fmt::format("{} {}, ", torque.basis == Basis::Line ? "line" : "bracket",
                          text(budget.reading));
  }
  return fmt::format("uncertainty ±{} (2u; u from {}wrench {}, mark {}, method {})",
                     text(budget.expanded()), reading, text(budget.wrench),
                     torque.per_degree ? text(budget.mark) : "not known", text(budget.method));
}

std::string verdict_line(const finding::JointState& joint, const finding::Finding& finding) {
  const auto* specified = joint.at(finding.entry->content.position).specified;
  if (specified == nullptr) return "no specification to compare with";
  std::string line = fmt::format("specified {}: {}", record::write_exact(specified->procedure),
                                 finding::word_of(finding.verdict));
  if (const auto& prevailing = finding.entry->content.prevailing) {
    line += fmt::format(", running torque {} allowed for", quantity::write_exact(*prevailing));
  }
  if (finding.ratio) line += fmt::format(", found is {:.2f} of it", *finding.ratio);
  return line;
}

}  // namespace

std::string finding_text(const finding::JointState& joint, const finding::Finding& finding,
                         const record::LogbookStart& start, const words::Page& page) {
  const auto unit = start.unit;
  std::string text = words::wrapped(found_line(finding.torque, unit), page.width, "  ", "    ");
  if (const auto& measured = finding.entry->content; record::is_used(measured.adapter)) {
    text += words::wrapped(adapter_line(measured), page.width, "  ", "    ");
  }
  if (const auto why = finding::why_of(finding.torque.line_use); !why.empty()) {
    text += words::wrapped(fmt::format("offsets not used: {}", why), page.width, "  ", "    ");
  }
  text += words::wrapped(uncertainty_line(finding.torque, unit), page.width, "  ", "    ");
  text += words::wrapped(verdict_line(joint, finding), page.width, "  ", "    ");
  text += fmt::format("  grade {}\n", finding::letter_of(finding.graded.grade));
  for (const auto* rule : finding.graded.rules) {
    text += words::wrapped(fmt::format("{}; {}", rule->why, rule->better), page.width, "    - ",
                           "      ");
  }
  for (const auto& help : words::help_lines(finding, start)) {
    text += words::wrapped(help, page.width, "  ", "    ");
  }
  return text;
}

}  // namespace screen
