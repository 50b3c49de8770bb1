#include "plan/default_pass_rule.h"

#include <fmt/format.h>

namespace plan {
namespace {

constexpr double kArmyOneRoundNewtonMetres = 41.0;  // printed beside 30 lbf·ft, which is 40.7 N·m
constexpr int kFewestForCheckRound = 4;

}  // namespace

ChosenPasses default_pass_rule(quantity::Torque final_torque, int positions, bool may_check) {
  const bool is_low = final_torque <= quantity::Torque::newton_metres(kArmyOneRoundNewtonMetres);
  ChosenPasses chosen{record::pass_rule_named(is_low ? "army-one-round" : "army-two-rounds"), ""};
  chosen.why =
      fmt::format("US Army general rule, {} 41 N·m (30 lbf·ft)", is_low ? "not above" : "above");
  if (may_check && positions >= kFewestForCheckRound) {
    chosen.rule.check = record::CheckRound::CountingOrder;
    chosen.why += "; a check round added from four positions on";
  }
  return chosen;
}

}  // namespace plan
