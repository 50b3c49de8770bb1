#include "finding/part_check.h"

#include "support/catch.h"
#include "support/joint_of.h"
#include "support/property.h"

namespace part_check_test {

using finding::Part;
using finding::PartBears;

namespace {

// An M8 8.8 in die-cast aluminium, invented.
record::Joint m8_in_aluminium(double engaged_mm) {
  auto joint = joint_of("M8x1.25", "8.8");
  joint.into = "EN AC-46000";
  joint.engaged = quantity::Length::millimetres(engaged_mm);
  return joint;
}

record::Specified specified(const std::string& text) {
  record::Specified specified;
  specified.typed = text;
  specified.procedure = record::read_specification(text);
  specified.condition = fastener::Condition::Oiled;
  return specified;
}

PartBears thread_at(double engaged_mm, const std::string& text) {
  const auto as = specified(text);
  const auto answers = finding::part_answers(m8_in_aluminium(engaged_mm), &as);
  REQUIRE(answers.size() == 1);
  REQUIRE(answers.front().part == Part::Thread);
  return answers.front().bears;
}

}  // namespace

TEST_CASE("the thread of the part is held against what is specified", "[finding]") {
  // Worked by hand for M8x1.25-6g in 6H: Ds,min 7.760, En,max 7.348, so that the hole shears in
  // pi · 7.760 (1/2 + (7.760 - 7.348)/(1.25 √3)) = 16.82 mm² for each mm. EN AC-46000: 0.7 · 240 =
  // 168 MPa, 2.826 kN for each mm. The bolt yields at 640 · 36.61 = 23.4 kN, 8.29 mm.
  // 25 N·m oiled, µ 0.08 to 0.16: 25/1.688 mm = 14.8 kN where friction is high, 25/0.9435 = 26.5 kN
  // where it is low.
  CHECK(thread_at(4.0, "25 N·m") == PartBears::Never);           // 11.3 kN
  CHECK(thread_at(7.0, "25 N·m") == PartBears::NotLowFriction);  // 19.8 kN
  CHECK(thread_at(7.0, "12 N·m") == PartBears::NotYield);        // 12.7 kN at most
  CHECK(thread_at(10.0, "25 N·m") == PartBears::Yes);            // 28.3 kN
  // An angle pulls it to yield.
  CHECK(thread_at(7.0, "5 N·m, +90°") == PartBears::Never);
  CHECK(thread_at(9.0, "5 N·m, +90°") == PartBears::Yes);
}

TEST_CASE("a seat is held against its limit", "[finding]") {
  // Ring 11.63 to 9 mm: 42.6 mm²; 14.8 to 26.5 kN press with 348 to 622 MPa.
  auto joint = joint_of("M8x1.25", "8.8");
  const auto as = specified("25 N·m");
  const auto bears_on = [&](const std::string& material) {
    joint.seat = material;
    const auto answers = finding::part_answers(joint, &as);
    REQUIRE(answers.size() == 1);
    CHECK(answers.front().part == Part::Seat);
    return answers.front().bears;
  };
  CHECK(bears_on("EN AC-46000") == PartBears::Never);      // 290 MPa
  CHECK(bears_on("S235") == PartBears::NotLowFriction);    // 490 MPa
  CHECK(bears_on("GJL-250") == PartBears::Yes);            // 900 MPa
  CHECK(bears_on("aluminium 240 MPa") == PartBears::Yes);  // no limit is known
  // A flange of 18 mm bears on 190.9 mm².
  joint.face = quantity::Length::millimetres(18.0);
  CHECK(bears_on("EN AC-46000") == PartBears::Yes);
  // A face that is no wider than the hole was not entered here.
  joint.face = quantity::Length::millimetres(5.0);
  CHECK(bears_on("EN AC-46000") == PartBears::Never);
}

TEST_CASE("what is not known of a part is not answered", "[finding]") {
  const auto as = specified("25 N·m");
  CHECK(finding::part_answers(joint_of("M8x1.25", "8.8"), &as).empty());
  auto strange = m8_in_aluminium(6.0);
  strange.into = "cheese";
  CHECK(finding::part_answers(strange, &as).empty());
  auto unmarked = m8_in_aluminium(6.0);
  unmarked.grade = "unknown";
  CHECK(finding::part_answers(unmarked, &as).empty());
  // Without a specification the material still says how much thread it takes.
  auto without = m8_in_aluminium(6.0);
  without.engaged.reset();
  const auto answers = finding::part_answers(without, nullptr);
  REQUIRE(answers.size() == 1);
  CHECK_THAT(answers.front().says, ContainsSubstring("hold until it yields"));
}

TEST_CASE("more engagement or less torque is never worse for the thread", "[finding]") {
  holds_always("monotone", [] {
    const int torque = *rc::gen::inRange(2, 40);
    const int engaged = *rc::gen::inRange(2, 30);
    const auto at = [](int millimetres, int newton_metres) {
      const auto as = specified(std::to_string(newton_metres) + " N·m");
      return finding::part_answers(m8_in_aluminium(millimetres), &as).front().bears;
    };
    RC_ASSERT(at(engaged + 1, torque) <= at(engaged, torque));
    RC_ASSERT(at(engaged, torque - 1) <= at(engaged, torque));
  });
}

}  // namespace part_check_test
