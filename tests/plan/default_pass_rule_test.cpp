#include "plan/default_pass_rule.h"

#include <vector>

#include "quantity/torque_unit.h"
#include "support/catch.h"

namespace default_pass_rule_test {

using quantity::Torque;
using quantity::TorqueUnit;

TEST_CASE("one plain torque goes by the general rule", "[plan]") {
  // Source: sequences.csv Q030 (seen): at or below 30 lbf·ft (41 N·m) full value; above 70 %, 100
  // %.
  const auto shares_at = [](Torque torque) {
    std::vector<double> shares;
    for (const auto& round : plan::default_pass_rule(torque, 8).rule.rounds) {
      shares.push_back(round.share.in_percent());
    }
    return shares;
  };
  const std::vector<double> at_once = {100.0};
  const std::vector<double> in_two = {70.0, 100.0};
  CHECK(shares_at(quantity::torque_of(30.0, TorqueUnit::FootPoundForce)) == at_once);
  CHECK(shares_at(Torque::newton_metres(41.0)) == at_once);
  CHECK(shares_at(Torque::newton_metres(41.1)) == in_two);
  CHECK(shares_at(quantity::torque_of(31.0, TorqueUnit::FootPoundForce)) == in_two);
  CHECK(shares_at(Torque::newton_metres(0.5)) == at_once);
}

TEST_CASE("four positions and more get a check round that fewer do not", "[plan]") {
  const auto four = plan::default_pass_rule(Torque::newton_metres(80.0), 4);
  CHECK(four.rule.check == record::CheckRound::CountingOrder);
  CHECK(four.why ==
        "US Army general rule, above 41 N·m (30 lbf·ft); a check round added from four positions "
        "on");
  const auto three = plan::default_pass_rule(Torque::newton_metres(20.0), 3);
  CHECK(three.rule.check == record::CheckRound::None);
  CHECK(three.why == "US Army general rule, not above 41 N·m (30 lbf·ft)");
  CHECK(record::pass_rule_named("army-two-rounds").check == record::CheckRound::None);
}

}  // namespace default_pass_rule_test
