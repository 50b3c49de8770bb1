#include "finding/torque_per_degree.h"

#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/property.h"

namespace torque_per_degree_test {

using finding::SlopeFrom;
using quantity::Length;
using quantity::Torque;

TEST_CASE("the mark error is half a pen line at the corner of the head", "[finding]") {
  // Worked by hand: 0.35 mm at 0.866 d; M12 10.392 mm: 1.930°; M6 5.196 mm: 3.859°. Not known: 4
  // mm, 5.013°.
  CHECK_THAT(finding::mark_error(bolt_m12()).in_degrees(), WithinAbs(1.930, 5e-4));
  finding::TestedBolt m6;
  m6.thread = fastener::Thread::metric(6.0, 1.0);
  CHECK_THAT(finding::mark_error(m6).in_degrees(), WithinAbs(3.859, 5e-4));
  CHECK_THAT(finding::mark_error({}).in_degrees(), WithinAbs(5.013, 5e-4));
}

TEST_CASE("torque per degree comes from size, length and condition", "[finding]") {
  // Worked by hand for M12x1.75 with 90 mm under the head, oiled (µ 0.08 to 0.16):
  //   dF for 1° = (1/360) P kb (1 - C), kb = A E/l, E 206.84 GPa (30 Mpsi)
  //   least: A 84.27 mm², l 90 mm, C 0.33:   193.7 kN/mm · 0.67 · 1.75/360 = 630.8 N
  //   most:  A 113.1 mm², l 72 mm, C 0.114:  324.9 kN/mm · 0.886 · 1.75/360 = 1399.3 N
  //   arm = P/2π + µ d2/(2 cos 30°) + µ Dkm/2, d2 10.863, Dkm (16.63 + 13.5)/2 = 15.065 mm
  //   least: 0.27852 + 0.50175 + 0.60260 = 1.38287 mm    0.8723 N·m
  //   most:  0.27852 + 1.00350 + 1.20520 = 2.48722 mm    3.480 N·m
  // What counts: 0.8723 √[(3.989² - 1)/(2 ln 3.989)] = 2.0252.
  auto bolt = bolt_m12();
  bolt.length = Length::millimetres(90.0);
  bolt.condition = fastener::Condition::Oiled;
  bolt.metal = fastener::BoltMetal::Steel;
  const auto slope = finding::estimated_slope(bolt, Torque::newton_metres(80.0));
  CHECK(slope.from == SlopeFrom::Bolt);
  CHECK_THAT(slope.low.in_newton_metres(), WithinRel(0.8723, 2e-3));
  CHECK_THAT(slope.high.in_newton_metres(), WithinRel(3.480, 2e-3));
  CHECK_THAT(slope.counts.in_newton_metres(), WithinRel(2.0252, 2e-3));
}

TEST_CASE("where the bolt does not tell, a stated share of the torque counts", "[finding]") {
  // 1.5 to 8 % of 80 N·m for each degree: 1.2 √[(5.3333² - 1)/(2 ln 5.3333)] = 3.43573.
  const auto unknown = finding::estimated_slope(bolt_m12(), Torque::newton_metres(80.0));
  CHECK(unknown.from == SlopeFrom::Share);
  CHECK_THAT(unknown.low.in_newton_metres(), WithinRel(1.2, 1e-12));
  CHECK_THAT(unknown.high.in_newton_metres(), WithinRel(6.4, 1e-12));
  CHECK_THAT(unknown.counts.in_newton_metres(), WithinRel(3.43573, 1e-6));
  // A short bolt could be stiffer than any joint is: the share bounds it.
  auto short_bolt = bolt_m12();
  short_bolt.length = Length::millimetres(24.0);
  const auto bounded = finding::estimated_slope(short_bolt, Torque::newton_metres(80.0));
  CHECK(bounded.from == SlopeFrom::Bolt);
  CHECK_THAT(bounded.high.in_newton_metres(), WithinRel(6.4, 1e-12));
  CHECK(bounded.low > unknown.low);
  CHECK(bounded.counts > unknown.counts);
}

TEST_CASE("a metal that no grade tells counts as the one that counts more", "[finding]") {
  auto bolt = bolt_m12();
  bolt.length = Length::millimetres(90.0);
  bolt.condition = fastener::Condition::Dry;
  const auto at = Torque::newton_metres(80.0);
  const auto of = [&](std::optional<fastener::BoltMetal> metal) {
    bolt.metal = metal;
    return finding::estimated_slope(bolt, at);
  };
  const auto steel = of(fastener::BoltMetal::Steel);
  const auto stainless = of(fastener::BoltMetal::Stainless);
  const auto unknown = of(std::nullopt);
  CHECK(stainless.counts > steel.counts);
  CHECK(unknown.counts == stainless.counts);
  CHECK(unknown.low == steel.low);
  CHECK(unknown.high == stainless.high);
}

TEST_CASE("a measured slope counts as it was measured", "[finding]") {
  const auto steep = finding::measured_slope(Torque::newton_metres(5.0));
  CHECK(steep.counts.in_newton_metres() == 5.0);
  CHECK(steep.high.in_newton_metres() == 5.0);
}

TEST_CASE("what a degree counts with lies in the span that is named for it", "[finding]") {
  // An M6 of 8 mm, dry, at 10 N·m was told that a degree counts with 0.43 N·m (0.8 to 0.8).
  holds_always("inside the span, which has a width or is one value", [] {
    finding::TestedBolt bolt;
    const double diameter = *rc::gen::element(4.0, 6.0, 8.0, 12.0, 20.0, 36.0);
    bolt.thread = fastener::Thread::metric(diameter, diameter / 7.0);
    bolt.length = Length::millimetres(diameter * *rc::gen::inRange(1, 15));
    bolt.condition = *rc::gen::elementOf(
        std::vector(fastener::kConditions.begin(), fastener::kConditions.end()));
    const auto at = Torque::newton_metres(*rc::gen::inRange(1, 4000) / 10.0);
    const auto slope = finding::estimated_slope(bolt, at);
    RC_CLASSIFY(slope.from == SlopeFrom::TooStiff, "too stiff");
    RC_ASSERT(slope.low < slope.high || slope.from == SlopeFrom::TooStiff);
    RC_ASSERT(slope.low <= slope.counts && slope.counts <= slope.high);
    RC_ASSERT(slope.high <= at * (finding::kMostShare * (1.0 + 1e-12)));
  });
}

}  // namespace torque_per_degree_test
