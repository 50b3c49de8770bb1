#include "plan/tightening_pass.h"

#include <fmt/format.h>

#include "plan/pass_rule.h"
#include "quantity/angle_text.h"

namespace plan {
namespace {

using Kind = record::PassKind;

// A minimum is aimed at from above and a maximum from below; the wrench's rounding sees to it.
Aim aim_at(const record::TorqueTarget& target, quantity::Percent default_tolerance) {
  const auto window = record::window_of(target, default_tolerance);
  const auto torque = window.nominal ? *window.nominal : window.low ? *window.low : *window.high;
  return {torque, window.low, window.high, target.unit};
}

// One step of a specification as a pass.
class StepToPass {
 public:
  explicit StepToPass(quantity::Percent default_tolerance)
      : default_tolerance_(default_tolerance) {}

  TighteningPass operator()(const record::TorqueStep& step) const {
    TighteningPass pass;
    pass.aim = aim_at(step.target, default_tolerance_);
    if (step.repeat) pass.says = "the same once more";
    return pass;
  }
  TighteningPass operator()(const record::LoosenStep& step) const {
    TighteningPass pass;
    pass.kind = Kind::Loosen;
    pass.angle = step.by;
    return pass;
  }
  TighteningPass operator()(const record::AngleStep& step) const {
    TighteningPass pass;
    pass.kind = Kind::Angle;
    pass.angle = step.turn;
    if (step.window) {
      pass.says = fmt::format("from {} to {}", quantity::write_exact(step.window->least),
                              quantity::write_exact(step.window->most));
    }
    return pass;
  }
  TighteningPass operator()(const record::RenewStep&) const {
    TighteningPass pass;
    pass.kind = Kind::Renew;
    pass.says = "the old ones have settled the parts";
    return pass;
  }

 private:
  quantity::Percent default_tolerance_;
};

Passes from_steps(const record::Specification& procedure, quantity::Percent default_tolerance) {
  Passes passes;
  passes.origin = "the steps of the specification";
  const StepToPass to_pass(default_tolerance);
  for (const auto& step : procedure.steps) passes.passes.push_back(std::visit(to_pass, step));
  return passes;
}

// A single torque in the rounds of the default rule.
Passes from_rule(const Aim& final_aim, int positions, fastener::Condition condition) {
  const bool locked = condition == fastener::Condition::Threadlocker;
  const auto chosen = default_pass_rule(final_aim.torque, positions, !locked);
  Passes passes;
  passes.origin = chosen.why;
  passes.rule = chosen.rule.name;
  passes.source = chosen.rule.source;
  for (const auto& round : chosen.rule.rounds) {
    TighteningPass pass;
    const double share = round.share.ratio();
    pass.aim = share == 1.0
                   ? final_aim
                   : Aim{final_aim.torque * share, std::nullopt, std::nullopt, final_aim.stated_in};
    pass.round_in_counting_order = round.in_counting_order;
    pass.says = share == 1.0 ? "full value" : fmt::format("{:.0f} %", round.share.in_percent());
    passes.passes.push_back(std::move(pass));
  }
  if (locked) {
    passes.origin += "; no check round, threadlocker must not be disturbed once it sets";
  }
  if (chosen.rule.check != CheckRound::None) {
    TighteningPass check;
    check.kind = Kind::Check;
    check.aim = final_aim;
    check.round_in_counting_order = chosen.rule.check != CheckRound::PatternUntilStill;
    check.says = chosen.rule.check == CheckRound::CountingOrder
                     ? "check once round, nothing may turn"
                     : "check round after round until nothing turns";
    passes.passes.push_back(std::move(check));
  }
  return passes;
}

// The only step is one plain torque, so that a pass rule may part it.
bool is_single_torque(const record::Specification& procedure) {
  return procedure.steps.size() == 1 &&
         std::holds_alternative<record::TorqueStep>(procedure.steps.front());
}

}  // namespace

record::PassTarget target_of(const TighteningPass& pass) {
  record::PassTarget target{pass.kind, std::nullopt, pass.angle};
  if (pass.aim) target.torque = pass.aim->torque;
  return target;
}

Passes passes_of(const finding::JointState& joint, const record::LogbookStart& start) {
  const int count = joint.joint->count;
  if (const auto* specified = joint.specified()) {
    if (!is_single_torque(specified->procedure)) {
      return from_steps(specified->procedure, start.default_tolerance);
    }
    const auto& step = std::get<record::TorqueStep>(specified->procedure.steps.front());
    return from_rule(aim_at(step.target, start.default_tolerance), count, specified->condition);
  }
  if (const auto provisional = finding::provisional_torque(joint)) {
    auto passes = from_rule({*provisional, std::nullopt, std::nullopt, start.unit}, count,
                            fastener::Condition::AsReceived);
    passes.provisional = true;
    passes.origin = "provisional torque, from finding; " + passes.origin;
    return passes;
  }
  Passes passes;
  passes.origin = "no torque is known";
  passes.passes.emplace_back();
  return passes;
}

}  // namespace plan
