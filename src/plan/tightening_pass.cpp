#include "plan/tightening_pass.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fastener/wrench_reading.h"
#include "plan/default_pass_rule.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"

namespace plan {
namespace {

// A round on the way is printed in whole tens of percent, so a mark nearby does as well and spares
// a change of wrench (own choice, no source).
constexpr double kFineEnoughForShare = 0.05;

// A minimum is aimed at from above and a maximum from below; the choice of wrench sees to it.
Aim aim_at(const record::TorqueTarget& target, quantity::Percent default_tolerance) {
  const auto window = record::window_of(target, default_tolerance);
  const auto torque = window.nominal ? *window.nominal : window.low ? *window.low : *window.high;
  return {torque, window.low, window.high, target.unit};
}

// One step of a specification as a pass.
class StepToPass {
 public:
  explicit StepToPass(const record::LogbookStart& start) : start_(start) {}

  TighteningPass operator()(const record::TorqueStep& step) const {
    TighteningPass pass;
    pass.aim = aim_at(step.target, start_.default_tolerance);
    if (step.repeat) pass.says = "the same once more";
    return pass;
  }
  TighteningPass operator()(const record::LoosenStep& step) const {
    TighteningPass pass;
    pass.kind = record::PassKind::Loosen;
    pass.angle = step.by;
    return pass;
  }
  TighteningPass operator()(const record::AngleStep& step) const {
    TighteningPass pass;
    pass.kind = record::PassKind::Angle;
    pass.angle = step.turn;
    const auto window = record::window_of(step, start_.angle_window);
    pass.window = window;
    pass.says = fmt::format(
        "{} to {} allowed{}", quantity::write_exact(window.least),
        quantity::write_exact(window.most),
        window.assumed ? fmt::format(" (±{} assumed)", quantity::write_exact(start_.angle_window))
                       : "");
    return pass;
  }
  TighteningPass operator()(const record::RenewStep&) const {
    TighteningPass pass;
    pass.kind = record::PassKind::Renew;
    pass.says = "the old ones have settled the parts";
    return pass;
  }

 private:
  const record::LogbookStart& start_;
};

// `61 N·m, +90°, min 122 N·m`: the wrench, set to the least torque, has to click before the
// fastener turns.
void make_angle_check(TighteningPass& pass, const record::TorqueTarget& least) {
  pass.kind = record::PassKind::Check;
  pass.checks_angle = true;
  pass.says = fmt::format("at least {} {}: it must click before anything turns",
                          quantity::write_exact(least.value), quantity::name_of(least.unit));
}

// Where the window of an angle comes from that its source does not print.
std::string_view angle_window_origin(const record::LogbookStart& start) {
  return start.angle_typed.empty()
             ? "assumed, its source prints none: one maker has 90° as 85° to 95° (seen), for other "
               "turns common practice"
             : "assumed as set at the start of this logbook, its source prints none";
}

Passes from_steps(const record::Specification& procedure, const record::LogbookStart& start) {
  Passes passes;
  passes.origin = "the steps of the specification";
  const StepToPass to_pass(start);
  bool by_angle = false;  // turned by angle since the last loosening or renewal
  for (const auto& step : procedure.steps) {
    auto pass = std::visit(to_pass, step);
    if (pass.kind == record::PassKind::Angle) by_angle = true;
    if (pass.kind == record::PassKind::Loosen || pass.kind == record::PassKind::Renew)
      by_angle = false;
    if (const auto* torque = std::get_if<record::TorqueStep>(&step);
        torque != nullptr && by_angle &&
        torque->target.form == record::TorqueTarget::Form::Minimum) {
      make_angle_check(pass, torque->target);
    }
    passes.passes.push_back(std::move(pass));
  }
  if (std::ranges::any_of(passes.passes, [](const TighteningPass& pass) {
        return pass.window && pass.window->assumed;
      })) {
    passes.origin += fmt::format("; angle window ±{} {}", quantity::write_exact(start.angle_window),
                                 angle_window_origin(start));
  }
  return passes;
}

// The rule entered for the joint, else the default one.
ChosenPasses chosen_rule(const record::Joint& joint, quantity::Torque final_torque,
                         bool may_check) {
  if (joint.passes.empty()) return default_pass_rule(final_torque, joint.count, may_check);
  ChosenPasses chosen{record::pass_rule_named(joint.passes), ""};
  chosen.why = fmt::format("pass rule {}, entered for the joint", chosen.rule.name);
  if (!chosen.rule.is_stated_for(joint.count)) {
    chosen.why += fmt::format("; its source states it for another count ({})", chosen.rule.use);
  }
  if (!may_check) chosen.rule.check = record::CheckRound::None;
  return chosen;
}

std::string share_text(const record::Round& round) {
  const auto percent = [](quantity::Percent share) {
    return fmt::format("{:.0f} %", share.in_percent());
  };
  if (round.share.ratio() == 1.0) return "full value";
  if (round.least == round.most) return percent(round.share);
  if (round.share == round.most) return "up to " + percent(round.most);
  return fmt::format("{}, printed as {:.0f} to {}", percent(round.share), round.least.in_percent(),
                     percent(round.most));
}

// A single torque in the rounds of a rule.
Passes from_rule(const Aim& final_aim, const record::Joint& joint, fastener::Condition condition) {
  const bool locked = condition == fastener::Condition::Threadlocker;
  const auto chosen = chosen_rule(joint, final_aim.torque, !locked);
  Passes passes;
  passes.origin = chosen.why;
  passes.rule = chosen.rule.name;
  passes.source = chosen.rule.source;
  passes.how_known = chosen.rule.how_known;
  passes.before = chosen.rule.before;
  passes.recheck = chosen.rule.recheck;
  for (const auto& round : chosen.rule.rounds) {
    TighteningPass pass;
    const double share = round.share.ratio();
    pass.aim = share == 1.0 ? final_aim
                            : Aim{final_aim.torque * share, std::nullopt, std::nullopt,
                                  final_aim.stated_in, kFineEnoughForShare};
    pass.round_in_counting_order = round.in_counting_order;
    pass.says = share_text(round);
    passes.passes.push_back(std::move(pass));
  }
  if (locked) {
    passes.origin += "; no check round, threadlocker must not be disturbed once it sets";
  }
  if (chosen.rule.check != record::CheckRound::None) {
    TighteningPass check;
    check.kind = record::PassKind::Check;
    check.aim = final_aim;
    check.round_in_counting_order = chosen.rule.check != record::CheckRound::PatternUntilStill;
    check.says = chosen.rule.check == record::CheckRound::CountingOrder
                     ? "check once round, nothing may turn"
                     : "check round after round until nothing turns";
    passes.passes.push_back(std::move(check));
  }
  return passes;
}

// On top of every torque and limit.
void add_running(Passes& passes, const quantity::StatedTorque& running) {
  const auto text = quantity::write_exact(running);
  for (auto& pass : passes.passes) {
    if (!pass.aim) continue;
    auto& aim = *pass.aim;
    aim.torque = fastener::with_prevailing_torque(aim.torque, running.torque());
    for (auto* limit : {&aim.low, &aim.high}) {
      if (*limit) *limit = fastener::with_prevailing_torque(**limit, running.torque());
    }
    aim.running = running.torque();
    pass.says += fmt::format("{}{} of it to run it down", pass.says.empty() ? "" : ", ", text);
  }
  passes.origin += fmt::format(
      "; every torque holds the running torque of {} that its test read (FAA AC 43.13-1B, 7-40)",
      text);
}

// What has to be added to every torque, and is not known.
void leave_running_open(Passes& passes, const Running& running) {
  for (auto& pass : passes.passes) {
    if (!pass.aim) continue;
    pass.aim->may_run = running.may_be->torque();
    if (running.of_before) pass.aim->had_running = running.of_before->torque();
    pass.says +=
        fmt::format("{}and on top what it takes to run it down", pass.says.empty() ? "" : ", ");
  }
}

// The only step is one plain torque, so that a pass rule may part it.
bool is_single_torque(const record::Specification& procedure) {
  return procedure.steps.size() == 1 &&
         std::holds_alternative<record::TorqueStep>(procedure.steps.front());
}

Passes specified_passes(const record::Joint& what, const record::Specified& specified,
                        const record::LogbookStart& start) {
  if (!is_single_torque(specified.procedure)) {
    auto passes = from_steps(specified.procedure, start);
    if (!what.passes.empty()) {
      passes.warning = fmt::format(
          "{}: the specification has steps of its own; they hold, and "
          "the pass rule {} is left aside",
          what.code, what.passes);
    }
    return passes;
  }
  const auto& step = std::get<record::TorqueStep>(specified.procedure.steps.front());
  return from_rule(aim_at(step.target, start.default_tolerance), what, specified.condition);
}

}  // namespace

bool same_target(const record::PassTarget& a, const record::PassTarget& b) {
  constexpr double kSameTorque = 1e-9;
  if (a.kind != b.kind || a.angle != b.angle) return false;
  if (!a.torque || !b.torque) return a.torque.has_value() == b.torque.has_value();
  return std::abs(*a.torque / *b.torque - 1.0) < kSameTorque;
}

record::PassTarget target_of(const TighteningPass& pass) {
  record::PassTarget target{pass.kind, std::nullopt, pass.angle};
  if (pass.aim) target.torque = pass.aim->torque;
  return target;
}

std::vector<TighteningPass> reopening_passes(Reopening why) {
  if (why == Reopening::None) return {};
  std::vector<TighteningPass> passes(1);
  passes.front().kind = record::PassKind::Loosen;
  const bool has_turned = why == Reopening::Turned || why == Reopening::TurnedSpent;
  passes.front().asks_for_look = has_turned;
  passes.front().says =
      has_turned ? "its final stripe turned: look at thread, face and seat, find out why"
      : why == Reopening::Renewed ? "a new one was decided: take the old one out"
                                  : "a test broke it loose, and it is used once: take it out";
  if (why != Reopening::Turned) {
    passes.emplace_back().kind = record::PassKind::Renew;
    passes.back().says = has_turned
                             ? "a self-locking one that turned is replaced (US Army TB 43-0218)"
                         : why == Reopening::Renewed ? "as decided"
                                                     : "a one-time fastener is tightened once";
  }
  return passes;
}

Passes passes_of(const finding::JointState& joint, const finding::SpecificationGroup& group,
                 const record::LogbookStart& start, const Running& running) {
  const auto& what = *joint.joint;
  if (group.specified != nullptr) {
    auto passes = specified_passes(what, *group.specified, start);
    if (running.read) {
      add_running(passes, *running.read);
    } else if (running.may_be) {
      leave_running_open(passes, running);
    }
    return passes;
  }
  if (const auto provisional = finding::provisional_torque(joint)) {
    // With the standard tolerance, so that a setting rounded to a graduation is not too much.
    const record::TorqueTarget target{record::TorqueTarget::Form::Nominal,
                                      quantity::in_unit(*provisional, start.unit), 0.0, start.unit};
    auto passes =
        from_rule(aim_at(target, start.default_tolerance), what, fastener::Condition::AsReceived);
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
