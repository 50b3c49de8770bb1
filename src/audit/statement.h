#pragma once

#include <fmt/format.h>

#include <concepts>
#include <string>
#include <string_view>
#include <vector>

#include "finding/found_torque.h"
#include "quantity/angle.h"
#include "quantity/percent.h"
#include "quantity/torque.h"
#include "record/job.h"

namespace audit {

// What a rule says: a sentence, and the figures from which it was written. The sentence is for
// people and may change with the wording, the unit of the logbook or the way numbers are written;
// the figures are the evidence and do not.
struct Statement {
  std::string text;
  std::string figures;  // each ended by "|"; of one kind and in one order for one rule
  // As versions before schema step 9 wrote it, where that was otherwise: their decisions were tied
  // to the words of the sentence (evidence.h). Never changed, only forgotten when no logbook of
  // that time is left.
  std::string old_text = {};

  [[nodiscard]] const std::string& as_of_old() const { return old_text.empty() ? text : old_text; }
};

// A sentence from its figures. What stands in the wording itself is no evidence.
template <class... Figures>
requires(std::same_as<Figures, Statement>&&...) [[nodiscard]] Statement
    says(fmt::format_string<std::conditional_t<true, const std::string&, Figures>...> wording,
         const Figures&... figures) {
  Statement said{fmt::format(wording, figures.text...), (std::string() + ... + figures.figures)};
  if ((... || !figures.old_text.empty())) {
    said.old_text = fmt::format(wording, figures.as_of_old()...);
  }
  return said;
}

// The figures, each as the sentence shows it and as the evidence keeps it.
namespace as {

// Words that carry no evidence: they follow from the figures, or only help to read them.
[[nodiscard]] Statement wording(std::string_view text);

// Words that are evidence: a code, a size, what somebody typed, a word of the records.
[[nodiscard]] Statement name(std::string_view text);

// The number of a line: of this file alone, another in a merged copy, so no evidence.
[[nodiscard]] Statement line(const record::Stamp& stamp);

[[nodiscard]] Statement count(std::size_t number);
[[nodiscard]] Statement count(int number);

// To four significant digits as evidence, as `shown` to the reader.
[[nodiscard]] Statement figure(double value, std::string shown);

// "1-4,9".
[[nodiscard]] Statement numbers(const std::vector<int>& positions);
[[nodiscard]] Statement day(record::Day value);
[[nodiscard]] Statement moment(record::Moment value);

// In a logbook's own unit to the reader, in N·m as evidence.
[[nodiscard]] Statement torque(quantity::Torque value, quantity::TorqueUnit unit);
// As it was typed, value and unit.
[[nodiscard]] Statement torque(const quantity::StatedTorque& stated);
[[nodiscard]] Statement angle(quantity::Angle value);
[[nodiscard]] Statement percent(quantity::Percent value);
[[nodiscard]] Statement procedure(const record::Specification& asked);

// "72 to 88 N·m", "at least 90 N·m", "at most 12 N·m".
[[nodiscard]] Statement window(const record::ToleranceWindow& limits, quantity::TorqueUnit unit);

// "80.0 ±5.7 N·m", "above 80 N·m", "at or below 60 N·m"; of old "80 ±5.7 N·m".
[[nodiscard]] Statement found(const finding::FoundTorque& value, quantity::TorqueUnit unit);

}  // namespace as

// One after the other with this between them.
[[nodiscard]] Statement joined(const std::vector<Statement>& statements, std::string_view between);

}  // namespace audit
