#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "quantity/percent.h"
#include "record/span_of_time.h"

namespace record {

// One round over all positions of a joint at a share of the final torque. `share` is what a plan
// takes; where the source prints a range, `least` to `most`, it is the middle, and where it prints
// "up to", it is that value.
struct Round {
  quantity::Percent share;
  quantity::Percent least;
  quantity::Percent most;
  bool in_counting_order = false;  // else in the joint's position order
};

// How the joint is checked at the full torque after the last round.
enum class CheckRound {
  None,
  CountingOrder,            // once round, 1 to n
  CountingOrderUntilStill,  // round after round, 1 to n, until no fastener turns
  PatternUntilStill,        // the same in the position order
};

// A published rule for the rounds in which a joint is brought to its torque, which a joint may
// name.
struct PassRule {
  std::string_view name;  // ours, in plain words
  std::string_view use;   // what the source states it for
  int fewest_positions = 1;
  std::optional<int> most_positions = std::nullopt;
  std::string_view before =
      {};  // what comes before the first round; empty where the source has nothing
  std::vector<Round> rounds;
  CheckRound check = CheckRound::None;
  std::string_view recheck = {};  // dwell and re-check; empty where the source has none
  std::optional<SpanOfTime> dwell = std::nullopt;  // how long after the last round
  std::string_view source;                         // document, and where in it
  std::string_view how_known;                      // "seen" or "memory"

  // True where the source states the rule for a joint of so many positions.
  [[nodiscard]] bool is_stated_for(int positions) const;
};

// All rules: the first two are the default (plan/default_pass_rule.h).
[[nodiscard]] const std::vector<PassRule>& pass_rules();

// The rule of that name; InputError otherwise, naming all there are.
[[nodiscard]] const PassRule& pass_rule_named(std::string_view name);

}  // namespace record
