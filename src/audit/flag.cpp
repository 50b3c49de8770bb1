#include "audit/flag.h"

#include <fmt/format.h>

#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

std::string dashed(std::string_view name) {
  std::string text(name);
  for (char& c : text) {
    if (c == ' ') c = '-';
  }
  return text;
}

std::string bare(const Case& subject, quantity::Torque torque) {
  return quantity::write_rounded(quantity::in_unit(torque, subject.job.start.unit));
}

}  // namespace

Deviation flag_position(const Rule& rule, Level level, const finding::JointState& joint,
                        int position, std::string says, std::string what_to_do) {
  const auto& code = joint.joint->code;
  return {fmt::format("{}:{}", dashed(rule.name), record::write_address(code, position)),
          level,
          std::string(rule.name),
          code,
          position,
          std::move(says),
          std::move(what_to_do)};
}

Deviation flag_joint(const Rule& rule, Level level, const finding::JointState& joint,
                     std::string says, std::string what_to_do) {
  const auto& code = joint.joint->code;
  return {fmt::format("{}:{}", dashed(rule.name), code),
          level,
          std::string(rule.name),
          code,
          std::nullopt,
          std::move(says),
          std::move(what_to_do)};
}

Deviation flag_positions(const Rule& rule, Level level, const finding::JointState& joint,
                         const std::vector<int>& positions, const std::string& says,
                         std::string what_to_do) {
  const auto which = record::write_positions(positions);
  auto deviation =
      flag_joint(rule, level, joint, fmt::format("{}: {}", which, says), std::move(what_to_do));
  deviation.id += "/" + which;
  return deviation;
}

Deviation flag_group(const Rule& rule, Level level, const finding::JointState& joint,
                     const std::vector<int>& positions, const std::string& says,
                     std::string what_to_do) {
  return positions.size() == joint.positions.size()
             ? flag_joint(rule, level, joint, says, std::move(what_to_do))
             : flag_positions(rule, level, joint, positions, says, std::move(what_to_do));
}

Deviation flag_part(const Rule& rule, Level level, const finding::JointState& joint,
                    std::string_view which, std::string says, std::string what_to_do) {
  auto deviation = flag_joint(rule, level, joint, std::move(says), std::move(what_to_do));
  deviation.id += ":" + dashed(which);
  return deviation;
}

std::string usable_range_text(const record::Wrench& wrench) {
  return fmt::format("{} to {} {}", quantity::write_rounded(record::least_setting(wrench)),
                     quantity::write_rounded(wrench.scale.high),
                     quantity::name_of(wrench.scale.unit));
}

std::string calibration_text(const record::Wrench& wrench) {
  return fmt::format("calibrated {}, valid to {}", record::write_day(*wrench.calibrated),
                     record::write_day(*record::calibration_ends(wrench)));
}

std::string torque_text(const Case& subject, quantity::Torque torque) {
  return quantity::write_rounded(torque, subject.job.start.unit);
}

std::string window_text(const Case& subject, const record::ToleranceWindow& window) {
  if (window.low && window.high) {
    return fmt::format("{} to {}{}", bare(subject, *window.low), torque_text(subject, *window.high),
                       window.assumed ? " (tolerance assumed)" : "");
  }
  return window.low ? "at least " + torque_text(subject, *window.low)
                    : "at most " + torque_text(subject, *window.high);
}

std::string found_text(const Case& subject, const finding::FoundTorque& torque) {
  if (torque.best) {
    const auto unit = subject.job.start.unit;
    return fmt::format(
        "{} {}",
        quantity::write_with_uncertainty(quantity::in_unit(*torque.best, unit),
                                         quantity::in_unit(torque.budget.expanded(), unit)),
        quantity::name_of(unit));
  }
  return torque.basis == finding::Basis::LowerBound
             ? "above " + torque_text(subject, *torque.low)
             : "at or below " + torque_text(subject, *torque.high);
}

}  // namespace audit
