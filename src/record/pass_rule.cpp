#include "record/pass_rule.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using quantity::Percent;

Round at(double share) {
  const auto percent = Percent::of_hundred(share);
  return {percent, percent, percent};
}
Round within(double least, double most) {
  return {Percent::of_hundred((least + most) / 2.0), Percent::of_hundred(least),
          Percent::of_hundred(most)};
}
Round up_to(double most) {
  return {Percent::of_hundred(most), Percent::of_hundred(0.0), Percent::of_hundred(most)};
}
Round in_counting_order(double share) {
  Round round = at(share);
  round.in_counting_order = true;
  return round;
}

constexpr std::string_view kArmySource =
    "US Army TB 9-3950-253-13&P and TM 5-3805-298-23-2, torque limits work packages";

std::vector<PassRule> written_out() {
  return {
      {.name = "army-one-round",
       .use = "general, 41 N·m (30 lbf·ft) and below",
       .rounds = {at(100)},
       .source = kArmySource,
       .how_known = "seen"},
      {.name = "army-two-rounds",
       .use = "general, above 41 N·m (30 lbf·ft)",
       .rounds = {at(70), at(100)},
       .source = kArmySource,
       .how_known = "seen"},
      {.name = "three-rounds",
       .use = "gasketed flange, 4 to 24 positions",
       .fewest_positions = 4,
       .most_positions = 24,
       .before =
           "pre-tighten to 14 or 27 N·m (10 or 20 lbf·ft), not above 20 % of the final torque",
       .rounds = {at(25), at(50), at(100)},
       .check = CheckRound::CountingOrder,
       .recheck = "between rounds check the gap at every other position",
       .source = "gasket maker's bolt tightening work sheet, 4 to 24 bolts",
       .how_known = "seen"},
      {.name = "flange-rounds-few",
       .use = "flange, 4 to 8 positions",
       .fewest_positions = 4,
       .most_positions = 8,
       .rounds = {at(30), at(60), at(100)},
       .check = CheckRound::CountingOrder,
       .source = "engineering reference page, bolt tightening procedure",
       .how_known = "seen"},
      {.name = "flange-rounds-many",
       .use = "flange, 12 positions and more",
       .fewest_positions = 12,
       .rounds = {at(20), at(40), at(80), at(100)},
       .check = CheckRound::CountingOrder,
       .source = "engineering reference page, bolt tightening procedure",
       .how_known = "seen"},
      {.name = "flange-rounds",
       .use = "flange of any count",
       .rounds = {at(30), at(60), at(100)},
       .check = CheckRound::CountingOrder,
       .source = "gasket maker's page after the Fluid Sealing Association",
       .how_known = "seen"},
      {.name = "flange-rounds-until-still",
       .use = "flange of any count",
       .rounds = {up_to(30), up_to(60), at(100)},
       .check = CheckRound::PatternUntilStill,
       .source = "supplier's page, flange bolt torque sequence",
       .how_known = "seen"},
      {.name = "legacy-flange-rounds",
       .use = "gasketed pressure flange",
       .before =
           "by hand, then snug to 15 to 30 N·m (10 to 20 lbf·ft), not above 20 % of the final "
           "torque",
       .rounds = {within(20, 30), within(50, 70), at(100)},
       .check = CheckRound::CountingOrderUntilStill,
       .recheck = "after at least 4 h once more round in counting order until none turns",
       .dwell = SpanOfTime{std::chrono::hours(4)},
       .source = "ASME PCC-1, table of torque increments for legacy cross-pattern tightening; the "
                 "dwell seen in a conference abstract (PVP2021) on PCC-1-2019",
       .how_known = "memory"},
      {.name = "five-rounds",
       .use = "polyethylene flange",
       .rounds = {at(20), at(40), at(60), at(80), at(100)},
       .check = CheckRound::CountingOrderUntilStill,
       .source = "pipe maker's procedure after Plastics Pipe Institute TN-38",
       .how_known = "seen"},
      {.name = "lined-pipe-rounds",
       .use = "plastic-lined pipe flange",
       .rounds = {at(20), at(40), at(60), at(80), in_counting_order(100)},
       .recheck = "re-torque after at least 24 h or the first thermal cycle",
       .dwell = SpanOfTime{std::chrono::hours(24)},
       .source = "pipe maker's flange assembly technical details",
       .how_known = "seen"},
  };
}

}  // namespace

bool PassRule::is_stated_for(int positions) const {
  return positions >= fewest_positions && (!most_positions || positions <= *most_positions);
}

const std::vector<PassRule>& pass_rules() {
  static const std::vector<PassRule> rules = written_out();
  return rules;
}

const PassRule& pass_rule_named(std::string_view name) {
  const auto& rules = pass_rules();
  const auto found = std::ranges::find(rules, name, &PassRule::name);
  if (found != rules.end()) return *found;
  std::string names;
  for (const auto& rule : rules) {
    names += fmt::format("{}{}", names.empty() ? "" : ", ", rule.name);
  }
  throw failure::InputError(
      fmt::format("{} is no pass rule; expected one of {}", quantity::quoted(name), names));
}

}  // namespace record
