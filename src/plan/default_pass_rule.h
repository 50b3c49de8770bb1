#pragma once

#include <string>

#include "quantity/torque.h"
#include "record/pass_rule.h"

namespace plan {

struct ChosenPasses {
  record::PassRule rule;
  std::string why;
};

// What a plan takes where the specification is one plain torque and nobody named a rule: the US
// Army general rule, 41 N·m (30 lbf·ft) and below in one round, above it 70 % and then 100 %. It
// prints no check round; from four positions on we add one in counting order, as the flange
// references do, since tightening one position relaxes its neighbours.
// Where `may_check` is false (an adhesive that must not be disturbed) none is added.
[[nodiscard]] ChosenPasses default_pass_rule(quantity::Torque final_torque, int positions,
                                             bool may_check = true);

}  // namespace plan
