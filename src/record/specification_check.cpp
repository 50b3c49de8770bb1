#include "record/specification_check.h"

#include <fmt/format.h>

#include <utility>

#include "failure/failure.h"

namespace record {
namespace {

using Form = TorqueTarget::Form;

void check_neighbours(const TighteningStep& before, const TighteningStep& step) {
  const auto* first = std::get_if<TorqueStep>(&before);
  const auto* second = std::get_if<TorqueStep>(&step);
  if (first == nullptr || second == nullptr) return;
  if (const auto range = as_range(first->target, second->target)) {
    throw failure::InputError(
        fmt::format("{}, {}: as two steps these are two torques; for one torque between the two "
                    "write {}",
                    write_exact(first->target), write_exact(second->target), *range));
  }
}

}  // namespace

std::optional<std::string> as_range(const TorqueTarget& a, const TorqueTarget& b) {
  const auto* low = &a;
  const auto* high = &b;
  if (low->form == Form::Maximum) std::swap(low, high);
  if (low->form != Form::Minimum || high->form != Form::Maximum) return std::nullopt;
  const auto top = quantity::torque_of(high->value, high->unit);
  if (quantity::torque_of(low->value, low->unit) >= top) return std::nullopt;
  return write_exact(TorqueTarget{
      Form::Range, low->value,
      low->unit == high->unit ? high->value : quantity::in_unit(top, low->unit), low->unit});
}

void check_specification(const Specification& specification) {
  const auto& steps = specification.steps;
  for (std::size_t i = 1; i < steps.size(); ++i) check_neighbours(steps[i - 1], steps[i]);
  const auto* last = steps.empty() ? nullptr : std::get_if<LoosenStep>(&steps.back());
  if (last != nullptr && !last->by) {
    throw failure::InputError(fmt::format(
        "{}: it ends in \"loosen\" and would leave the fastener slack; add the torque or the angle "
        "that comes after it",
        write_exact(specification)));
  }
}

}  // namespace record
