#include "paper/found_result.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

#include "record/address.h"
#include "words/found_value.h"

namespace paper {
namespace {

using finding::Verdict;
using quantity::TorqueUnit;

constexpr std::size_t kFewOutside = 4;  // whose values are told one by one

std::vector<int> positions_with(const finding::JointState& joint, Verdict verdict) {
  std::vector<int> positions;
  for (const auto& position : joint.positions) {
    const auto* finding = position.finding();
    if (finding != nullptr && finding->verdict == verdict) positions.push_back(position.position);
  }
  return positions;
}

std::string told(const finding::JointState& joint, const std::vector<int>& positions,
                 const std::optional<TorqueUnit>& unit) {
  if (!unit || positions.size() > kFewOutside) {
    return record::write_address(joint.joint->code, positions);
  }
  std::string text;
  for (const int position : positions) {
    text += fmt::format("{}{:02} at {}", text.empty() ? "" : ", ", position,
                        words::found_value(joint.at(position).finding()->torque, *unit));
  }
  return text;
}

std::string result(const finding::JointState& joint, const std::optional<TorqueUnit>& unit) {
  std::string text;
  for (const auto verdict :
       {Verdict::Within, Verdict::Low, Verdict::High, Verdict::Undecided, Verdict::NotComparable}) {
    const auto positions = positions_with(joint, verdict);
    if (positions.empty()) continue;
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", positions.size(),
                        finding::word_of(verdict));
    const bool is_outside = verdict == Verdict::Low || verdict == Verdict::High;
    if (is_outside) text += ": " + told(joint, positions, unit);
    if (verdict == Verdict::Undecided) {
      text += ": " + record::write_address(joint.joint->code, positions);
    }
  }
  std::vector<int> disputed;
  for (const auto& position : joint.positions) {
    if (!position.disputed_findings.empty()) disputed.push_back(position.position);
  }
  if (!disputed.empty()) {
    text += "; disputed: " + record::write_address(joint.joint->code, disputed);
  }
  return text.empty() ? "not tested" : text;
}

}  // namespace

bool is_outside(const finding::Finding& finding) {
  return finding.verdict == Verdict::Low || finding.verdict == Verdict::High;
}

std::string found_result(const finding::JointState& joint, TorqueUnit unit) {
  return result(joint, unit);
}

std::string found_result(const finding::JointState& joint) { return result(joint, std::nullopt); }

}  // namespace paper
