#include "finding/in_line.h"

namespace finding {

bool in_line_at_specification(const record::Measured& measured,
                              const record::ToleranceWindow& window) {
  const auto& first = measured.readings.front();
  if (first.mark != record::Mark::On || (!window.low && !window.high)) return false;
  const auto applied = record::applied_torque(measured, first.setting);
  return (!window.low || applied >= *window.low) && (!window.high || applied <= *window.high);
}

}  // namespace finding
