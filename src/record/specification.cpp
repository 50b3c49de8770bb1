#include "record/specification.h"

#include <fmt/format.h>

#include <algorithm>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using quantity::Angle;

std::string text_of(const TorqueStep& step) {
  return (step.repeat ? "repeat " : "") + write_exact(step.target);
}

std::string text_of(const LoosenStep& step) {
  return step.by ? "loosen " + quantity::write_exact(*step.by) : "loosen";
}

std::string text_of(const AngleStep& step) {
  std::string turn = "+" + quantity::write_exact(step.turn);
  if (!step.window) return turn;
  return fmt::format("{} ({}-{})", turn, quantity::write_exact(step.window->least.in_degrees()),
                     quantity::write_exact(step.window->most.in_degrees()));
}

std::string text_of(const RenewStep&) { return "new bolts"; }

}  // namespace

AngleWindow window_of(const AngleStep& step, quantity::Angle spread) {
  if (step.window) return *step.window;
  const auto none = quantity::Angle::degrees(0.0);
  return {std::max(none, step.turn - spread), step.turn + spread, true};
}

ToleranceWindow window_of(const TorqueTarget& target, quantity::Percent default_tolerance) {
  const auto torque = [&](double value) { return quantity::torque_of(value, target.unit); };
  const double value = target.value;
  const double spread = target.spread;
  const auto by_percent = [&](double percent, bool assumed) {
    return ToleranceWindow{torque(value * (100.0 - percent) / 100.0), torque(value),
                           torque(value * (100.0 + percent) / 100.0), assumed};
  };
  switch (target.form) {
    case TorqueTarget::Form::Nominal:
      return by_percent(default_tolerance.in_percent(), true);
    case TorqueTarget::Form::Percent:
      return by_percent(spread, false);
    case TorqueTarget::Form::PlusMinus:
      return {torque(value - spread), torque(value), torque(value + spread)};
    case TorqueTarget::Form::Range:
      return {torque(value), torque((value + spread) / 2.0), torque(spread)};
    case TorqueTarget::Form::Minimum:
      return {torque(value), std::nullopt, std::nullopt};
    case TorqueTarget::Form::Maximum:
      return {std::nullopt, std::nullopt, torque(value)};
  }
  return {};
}

std::optional<TorqueTarget> final_torque(const Specification& specification) {
  const Angle none = Angle::degrees(0.0);
  Angle turned = none;  // by angle steps, and not yet loosened again
  std::optional<TorqueTarget> reached;
  for (const auto& step : specification.steps) {
    if (const auto* torque = std::get_if<TorqueStep>(&step)) {
      if (turned == none) reached = torque->target;
      continue;
    }
    reached.reset();
    if (const auto* angle = std::get_if<AngleStep>(&step)) {
      turned = turned + angle->turn;
    } else if (const auto* loosen = std::get_if<LoosenStep>(&step); loosen && loosen->by) {
      turned = std::max(none, turned - *loosen->by);
    } else {
      turned = none;
    }
  }
  return reached;
}

bool has_angle_step(const Specification& specification) {
  return std::ranges::any_of(specification.steps, [](const TighteningStep& step) {
    return std::holds_alternative<AngleStep>(step);
  });
}

std::string write_exact(const TorqueTarget& target) {
  const std::string value = quantity::write_exact(target.value);
  const std::string spread = quantity::write_exact(target.spread);
  const auto unit = quantity::name_of(target.unit);
  switch (target.form) {
    case TorqueTarget::Form::Nominal:
      return fmt::format("{} {}", value, unit);
    case TorqueTarget::Form::Percent:
      return fmt::format("{} {} ±{}%", value, unit, spread);
    case TorqueTarget::Form::PlusMinus:
      return fmt::format("{} ±{} {}", value, spread, unit);
    case TorqueTarget::Form::Range:
      return fmt::format("{}-{} {}", value, spread, unit);
    case TorqueTarget::Form::Minimum:
      return fmt::format("min {} {}", value, unit);
    case TorqueTarget::Form::Maximum:
      return fmt::format("max {} {}", value, unit);
  }
  return {};
}

std::string write_exact(const Specification& specification) {
  std::string text;
  for (const auto& step : specification.steps) {
    if (!text.empty()) text += ", ";
    text += std::visit([](const auto& kind) { return text_of(kind); }, step);
  }
  return text;
}

}  // namespace record
