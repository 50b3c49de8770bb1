#include "finding/search_ceiling.h"

#include "support/catch.h"
#include "support/joint_of.h"

namespace search_ceiling_test {

using fastener::Condition;
using finding::Ceiling;
using quantity::Torque;

namespace {

record::ToleranceWindow window(double low, double high) {
  record::ToleranceWindow result;
  result.low = Torque::newton_metres(low);
  result.high = Torque::newton_metres(high);
  return result;
}

const Torque kNone = Torque::newton_metres(0);

}  // namespace

TEST_CASE("the yield ceiling is the published torque at 90 % of yield", "[finding]") {
  // Source: VDI 2230 Part 1 guideline table, tightening torque MA at 90 % of yield, M12 class 8.8:
  // 61.6 N·m at μ = 0.08 and 102 N·m at 0.16 (the oiled band's two ends), from memory; within the
  // 0.9 % that the formula reproduces the table.
  const auto joint = joint_of("M12x1.75", "8.8");
  CHECK_THAT(finding::yield_ceiling(joint, Condition::Oiled, false, kNone)->in_newton_metres(),
             WithinRel(61.6, 0.02));
  CHECK_THAT(finding::yield_ceiling(joint, Condition::Oiled, true, kNone)->in_newton_metres(),
             WithinRel(102.0, 0.02));
}

TEST_CASE("the lower of tolerance and yield is the ceiling", "[finding]") {
  const auto joint = joint_of("M12x1.75", "8.8");
  const auto usual = finding::search_ceiling(joint, Condition::Oiled, window(72, 88), kNone);
  CHECK(usual->from == Ceiling::From::Tolerance);
  CHECK(usual->torque == Torque::newton_metres(88));
  const auto slip = finding::search_ceiling(joint, Condition::Oiled, window(144, 176), kNone);
  CHECK(slip->from == Ceiling::From::Yield);
  CHECK(slip->torque < Torque::newton_metres(110));
  const auto unspecified = finding::search_ceiling(joint, Condition::Oiled, std::nullopt, kNone);
  CHECK(unspecified->torque < Torque::newton_metres(65));
}

TEST_CASE("an unknown grade leaves the tolerance, or no ceiling at all", "[finding]") {
  const auto joint = joint_of("M12x1.75", "unknown");
  CHECK(finding::search_ceiling(joint, Condition::Dry, window(72, 88), kNone)->torque ==
        Torque::newton_metres(88));
  CHECK_FALSE(finding::search_ceiling(joint, Condition::Dry, std::nullopt, kNone).has_value());
  CHECK_FALSE(finding::expected_torque(joint, Condition::Dry, std::nullopt, kNone).has_value());
}

TEST_CASE("what runs the fastener comes on top of ceiling and expectation", "[finding]") {
  const auto joint = joint_of("M12x1.75", "8.8");
  const auto drag = Torque::newton_metres(5);
  CHECK(finding::search_ceiling(joint, Condition::Oiled, window(72, 88), drag)->torque ==
        Torque::newton_metres(93));
  const auto expected = finding::expected_torque(joint, Condition::Oiled, window(72, 88), drag);
  CHECK(expected->low == Torque::newton_metres(77));
  CHECK(expected->high == Torque::newton_metres(93));
}

TEST_CASE("without a specification the plausible band is expected", "[finding]") {
  const auto band =
      finding::expected_torque(joint_of("M12x1.75", "8.8"), Condition::Oiled, std::nullopt, kNone);
  REQUIRE(band.has_value());
  CHECK(band->low > Torque::newton_metres(20));
  CHECK(band->low < Torque::newton_metres(61));
  CHECK(band->high > Torque::newton_metres(90));
}

}  // namespace search_ceiling_test
