#include "finding/plausibility.h"

#include "support/joint_of.h"
#include "support/property.h"

namespace plausibility_test {

using fastener::Condition;
using finding::Plausibility;
using quantity::StatedTorque;
using quantity::Torque;
using quantity::TorqueUnit;

namespace {

finding::BoltLimits limits_of(const std::string& size, const std::string& grade,
                              Condition condition) {
  return finding::bolt_limits(joint_of(size, grade), condition).value();
}

record::Specified specified_as(const std::string& text,
                               Condition condition = Condition::AsReceived) {
  record::Specified specified;
  specified.joint = "J01";
  specified.procedure = record::read_specification(text);
  specified.condition = condition;
  return specified;
}

// Whether the specification may be entered for this joint without insisting.
bool taken(const std::string& size, const std::string& grade, const std::string& text,
           Condition condition = Condition::AsReceived) {
  const auto found = finding::implausible(specified_as(text, condition), joint_of(size, grade));
  return !found || !finding::is_refused(found->plausibility);
}

}  // namespace

TEST_CASE("a slip of unit is named as a fitter would say it", "[finding]") {
  for (const auto condition : {Condition::AsReceived, Condition::Dry, Condition::Oiled}) {
    const auto text = finding::plausibility_text({160, TorqueUnit::NewtonMetre},
                                                 limits_of("M8x1.25", "8.8", condition));
    CHECK_THAT(text, ContainsSubstring("160 N·m on M8 8.8 is 6 times its proof torque; 160 in·lbf "
                                       "= 18.1 N·m would fit"));
  }
}

TEST_CASE("the proof torque of the message is a published one", "[finding]") {
  // Source: torque_tables.csv, VDI 2230 guideline tables: M8 8.8 at 0.12 is 27 N·m at 90 % of
  // yield; proof is 580 of 640 MPa, and pull and twist together yield at 580/576 of the table's
  // pull times the twist's factor. By hand: Fp = 36.61 x 580 = 21.23 kN, arm 0.199 + 0.12 x (4.150
  // + 5.158) = 1.316 mm (dw 11.63, hole 9), so 27.9 N·m.
  CHECK_THAT(limits_of("M8x1.25", "8.8", Condition::Oiled).proof_torque.in_newton_metres(),
             WithinAbs(27.94, 0.03));
}

TEST_CASE("slips of the other units are named as well", "[finding]") {
  const auto m12 = limits_of("M12x1.75", "8.8", Condition::Oiled);
  CHECK_THAT(finding::plausibility_text({80, TorqueUnit::KilogramForceMetre}, m12),
             ContainsSubstring("80 N·m would fit"));
  CHECK_THAT(finding::plausibility_text({2.5, TorqueUnit::NewtonMetre}, m12),
             ContainsSubstring("clamps nothing"));
  CHECK_THAT(finding::plausibility_text({60, TorqueUnit::InchPoundForce}, m12),
             ContainsSubstring("below the plausible") &&
                 ContainsSubstring("60 N·m or 60 ft·lbf = 81.3 N·m would fit"));
  CHECK_THAT(finding::plausibility_text({80, TorqueUnit::FootPoundForce}, m12),
             ContainsSubstring("above the plausible") && ContainsSubstring("80 N·m would fit"));
  CHECK_THAT(finding::plausibility_text({9999, TorqueUnit::NewtonMetre}, m12),
             ContainsSubstring("check the size, the grade and the number"));
  CHECK(finding::plausibility_text({80, TorqueUnit::NewtonMetre}, m12).empty());
}

TEST_CASE("each limit refuses just beyond it and takes what is just within", "[finding]") {
  const auto limits = limits_of("M12x1.75", "8.8", Condition::Oiled);
  const auto judged = [&](Torque torque) { return finding::plausibility_of(torque, limits); };
  const auto beyond = [](Torque torque) { return torque * 1.000001; };
  const auto within = [](Torque torque) { return torque * 0.999999; };
  CHECK(judged(beyond(limits.yields_at)) == Plausibility::TooMuch);
  CHECK(judged(limits.yields_at) == Plausibility::Above);
  CHECK(judged(beyond(limits.plausible.high)) == Plausibility::Above);
  CHECK(judged(limits.plausible.high) == Plausibility::Fits);
  CHECK(judged(limits.plausible.low) == Plausibility::Fits);
  CHECK(judged(within(limits.plausible.low)) == Plausibility::Below);
  const auto least = limits.plausible.low * finding::kLeastShareOfPlausible;
  CHECK(judged(least) == Plausibility::Below);
  CHECK(judged(within(least)) == Plausibility::TooLittle);
}

TEST_CASE("usual specifications are taken", "[finding]") {
  CHECK(taken("M6x1", "8.8", "7.5 ft·lbf"));
  CHECK(taken("M8x1.25", "8.8", "20 N·m"));
  CHECK(taken("M5x0.8", "8.8", "5 N·m"));
  CHECK(taken("M12x1.75", "8.8", "40 N·m, 60 N·m, 80 N·m", Condition::Oiled));
  CHECK(taken("M12x1.25", "10.9", "60 N·m, +60° (55-65)"));
  // A gasketed cover, far below what the bolt could carry.
  CHECK(taken("M6x1", "10.9", "3 N·m"));
  // A seating torque before an angle may be any small number.
  CHECK(taken("M12x1.75", "10.9", "1 N·m, +90°"));
  // The check after an angle holds for a bolt that may have yielded.
  CHECK(taken("M10x1.5", "8.8", "30 N·m, +90°, min 122 N·m"));
  CHECK(taken("M8x1.25", "unknown", "160 N·m"));
  CHECK(taken("M20x2.5", "9.8", "1 N·m"));
  CHECK(taken("M8x1.25", "8.8", "25 N·m", Condition::Threadlocker));
}

TEST_CASE("what the bolt cannot carry is refused wherever it stands", "[finding]") {
  CHECK_FALSE(taken("M8x1.25", "8.8", "160 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "20 N·m, 160 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "160 N·m, loosen, 20 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "160 N·m, +90°"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "20 N·m, +90°, new bolts, 160 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "min 160 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "0.5 N·m"));
  CHECK_FALSE(taken("M8x1.25", "8.8", "max 0.5 N·m"));
}

TEST_CASE("with threadlocker the span from oiled to dry bounds a specification, and says so",
          "[finding]") {
  const auto joint = joint_of("M8x1.25", "8.8");
  const auto much = finding::implausible(specified_as("160 N·m", Condition::Threadlocker), joint);
  REQUIRE(much);
  CHECK(much->plausibility == Plausibility::TooMuch);
  CHECK_THAT(much->says, ContainsSubstring("6 times its proof torque") &&
                             ContainsSubstring("160 in·lbf = 18.1 N·m would fit") &&
                             ContainsSubstring("from oiled to dry, 0.08 to 0.24"));
  const auto little = finding::implausible(specified_as("0.5 N·m", Condition::Threadlocker), joint);
  REQUIRE(little);
  CHECK(little->plausibility == Plausibility::TooLittle);
  // No narrower than either of the two conditions it spans.
  const auto glued = limits_of("M8x1.25", "8.8", Condition::Threadlocker);
  CHECK_FALSE(glued.friction_known);
  for (const auto condition : {Condition::Oiled, Condition::Dry}) {
    const auto known = limits_of("M8x1.25", "8.8", condition);
    CHECK(known.friction_known);
    CHECK(glued.plausible.low <= known.plausible.low);
    CHECK(glued.yields_at >= known.yields_at);
  }
}

TEST_CASE("between refusal and the band there is a remark", "[finding]") {
  const auto below = finding::implausible(specified_as("3 N·m"), joint_of("M8x1.25", "8.8"));
  REQUIRE(below);
  CHECK(below->plausibility == Plausibility::Below);
  CHECK_THAT(below->says, ContainsSubstring("3 N·m on M8 8.8 is below the plausible"));
  const auto above = finding::implausible(specified_as("40 N·m"), joint_of("M8x1.25", "8.8"));
  REQUIRE(above);
  CHECK(above->plausibility == Plausibility::Above);
}

TEST_CASE("plausibility rises with the torque", "[finding]") {
  holds_always("a higher torque is never judged as smaller", [] {
    const auto condition = *rc::gen::elementOf(
        std::vector{Condition::Dry, Condition::Oiled, Condition::AntiSeize, Condition::AsReceived});
    const auto size = *rc::gen::elementOf(std::vector<std::string>{
        "M3x0.5", "M8x1.25", "M12x1.25", "M39x4", "#4-40 UNC", "3/8-16", "1-8"});
    const auto grade = *rc::gen::elementOf(
        std::vector<std::string>{"4.6", "8.8", "12.9", "A2-50", "SAE 2", "SAE 8"});
    const auto limits = finding::bolt_limits(joint_of(size, grade), condition);
    RC_PRE(limits.has_value());
    const auto one = Torque::newton_metres(*rc::gen::inRange(1, 5'000'000) / 1000.0);
    const auto other = one * (1.0 + *rc::gen::inRange(0, 1000) / 100.0);
    RC_ASSERT(finding::plausibility_of(one, *limits) >= finding::plausibility_of(other, *limits));
    const auto text =
        finding::plausibility_text({one.in_newton_metres(), TorqueUnit::NewtonMetre}, *limits);
    RC_ASSERT(text.empty() == (finding::plausibility_of(one, *limits) == Plausibility::Fits));
  });
}

}  // namespace plausibility_test
