#include "record/same_specification.h"

#include <cmath>

namespace record {
namespace {

bool is_alike(const std::optional<quantity::Torque>& a, const std::optional<quantity::Torque>& b) {
  if (!a || !b) return a.has_value() == b.has_value();
  return std::fabs(*a / *b - 1.0) <= kRounding;
}

bool ask_the_same(const TighteningStep& a, const TighteningStep& b,
                  quantity::Percent default_tolerance) {
  const auto* torque_a = std::get_if<TorqueStep>(&a);
  const auto* torque_b = std::get_if<TorqueStep>(&b);
  if (torque_a == nullptr || torque_b == nullptr) return a == b;
  const auto window_a = window_of(torque_a->target, default_tolerance);
  const auto window_b = window_of(torque_b->target, default_tolerance);
  return torque_a->repeat == torque_b->repeat && is_alike(window_a.low, window_b.low) &&
         is_alike(window_a.nominal, window_b.nominal) && is_alike(window_a.high, window_b.high);
}

}  // namespace

bool ask_the_same(const Specification& a, const Specification& b,
                  quantity::Percent default_tolerance) {
  if (a.steps.size() != b.steps.size()) return false;
  for (std::size_t i = 0; i < a.steps.size(); ++i) {
    if (!ask_the_same(a.steps[i], b.steps[i], default_tolerance)) return false;
  }
  return true;
}

}  // namespace record
