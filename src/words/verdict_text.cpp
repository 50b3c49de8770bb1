#include "words/verdict_text.h"

#include <fmt/format.h>

#include "quantity/number_text.h"
#include "record/address.h"
#include "words/found_value.h"

namespace words {

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
  return std::string(finding::word_of(finding.verdict));
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

}  // namespace words
