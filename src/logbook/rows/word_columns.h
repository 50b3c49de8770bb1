#pragma once

#include <optional>
#include <string>

#include "fastener/condition.h"
#include "logbook/logbook_error.h"
#include "quantity/stated_torque.h"
#include "record/running_amount.h"

namespace logbook {

// Words as their columns hold them, and back. A logbook written by this program holds no other
// text; one that does is damaged (LogbookError).

[[nodiscard]] inline std::string unit_text(quantity::TorqueUnit unit) {
  return std::string(quantity::name_of(unit));
}

[[nodiscard]] inline quantity::TorqueUnit unit_from(const std::string& text) {
  if (const auto unit = quantity::read_torque_unit(text)) return *unit;
  throw LogbookError(LogbookError::Kind::Damaged, "this logbook holds an unknown unit: " + text);
}

[[nodiscard]] inline std::string counter_text(const std::optional<record::RunningAmount>& counter) {
  return counter ? record::write_exact(*counter) : std::string();
}

[[nodiscard]] inline std::optional<record::RunningAmount> counter_from(const std::string& text) {
  if (text.empty()) return std::nullopt;
  return record::read_running_amount(text);
}

[[nodiscard]] inline std::string condition_text(fastener::Condition condition) {
  return std::string(fastener::name_of(condition));
}

[[nodiscard]] inline fastener::Condition condition_from(const std::string& text) {
  if (const auto condition = fastener::read_condition(text)) return *condition;
  throw LogbookError(LogbookError::Kind::Damaged,
                     "this logbook holds an unknown condition: " + text);
}

}  // namespace logbook
