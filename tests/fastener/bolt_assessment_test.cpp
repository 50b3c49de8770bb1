#include "fastener/bolt_assessment.h"

#include <algorithm>

#include "failure/failure.h"
#include "fastener/thread_generator.h"
#include "fastener/thread_text.h"
#include "quantity/torque_unit.h"

namespace bolt_assessment_test {

using fastener::assess;
using fastener::BoltQuestion;
using fastener::Condition;
using fastener::FrictionBand;
using fastener::Grade;
using fastener::read_thread;
using quantity::Force;
using quantity::Torque;
using quantity::TorqueUnit;

namespace {

BoltQuestion question_of(const char* thread, Grade grade) {
  return {read_thread(thread), grade,        Condition::AsReceived, std::nullopt,
          std::nullopt,        std::nullopt, std::nullopt};
}

FrictionBand exactly(double friction) { return FrictionBand::same(friction, friction, {"test"}); }

}  // namespace

TEST_CASE("the guideline torque brings the bolt to nine tenths of yield", "[fastener]") {
  // Source: VDI 2230 guideline row M10x1.25 8.8 at 0.12 (worked_examples WE05): 51 N·m, 31.6 kN.
  // Half a N·m of rounding in 51 is 1 %.
  auto question = question_of("M10x1.25", Grade::Class8_8);
  question.friction = exactly(0.12);
  question.torque = Torque::newton_metres(51);
  const auto bolt = assess(question);
  CHECK_THAT(bolt.tightened->preload.low.in_newtons(), WithinRel(31600.0, 0.01));
  CHECK(bolt.tightened->preload.low == bolt.tightened->preload.high);
  CHECK_THAT(bolt.tightened->yield_share.high, WithinAbs(0.90, 0.009));
  CHECK_THAT(bolt.advice->plausible.high.in_newton_metres(), WithinAbs(51, 0.6));
}

TEST_CASE("Shigley's preload example is assessed", "[fastener]") {
  // Source: Shigley 9th ed. Example 8-3: 3/4-16 grade 5, f = fc = 0.15, 3551 lbf.in for 25 kip
  // (torque from memory), preload stress 67.0 of 85 kpsi. The linear form differs by up to 2 %.
  auto question = question_of("3/4-16", Grade::Sae5);
  question.friction = exactly(0.15);
  question.torque = quantity::torque_of(3551, TorqueUnit::InchPoundForce);
  const auto bolt = assess(question);
  CHECK_THAT(bolt.tightened->preload.high.in_pounds_force(), WithinRel(25000.0, 0.02));
  CHECK_THAT(bolt.tightened->proof_share.high, WithinRel(67.02 / 85.0, 0.02));
  CHECK_THAT(quantity::in_unit(bolt.tightened->loosening.high, TorqueUnit::InchPoundForce),
             WithinRel(3038.0, 0.02));
  CHECK_THAT(bolt.proof_load.in_pounds_force(), WithinRel(85000.0 * 0.373, 0.001));
}

TEST_CASE("friction of its own in thread and head spans all that lies between", "[fastener]") {
  holds_always("no friction inside both spans leaves the share of yield", [] {
    auto question = question_of("7/16-20", Grade::AstmA490);
    const auto any = [](int from, int to) { return *rc::gen::inRange(from, to) / 1000.0; };
    const double thread = any(40, 300);
    const double head = any(40, 300);
    const double thread_high = thread + any(1, 200);
    const double head_high = head + any(1, 200);
    question.friction = FrictionBand{fastener::Friction::of(thread, head),
                                     fastener::Friction::of(thread_high, head_high),
                                     {"test"}};
    question.torque = Torque::newton_metres(any(20'000, 90'000));
    question.prevailing = Torque::newton_metres(any(1, 18'000));
    const auto share = assess(question).tightened->yield_share;
    const double inside_thread = thread + (thread_high - thread) * any(0, 1001);
    const double inside_head = head + (head_high - head) * any(0, 1001);
    const auto inside = fastener::Friction::of(inside_thread, inside_head);
    question.friction = FrictionBand{inside, inside, {"test"}};
    const auto one = assess(question).tightened->yield_share;
    RC_ASSERT(one.low >= share.low * (1.0 - 1e-9));
    RC_ASSERT(one.high <= share.high * (1.0 + 1e-9));
  });
  // Worked by hand, twist by von Mises at 67.7 less 12 lbf·ft: at 0.319 under the head 45.9 % with
  // 0.146 in the thread, 46.5 % with 0.219; both high is not the least.
  auto question = question_of("7/16-20", Grade::AstmA490);
  question.friction = FrictionBand{
      fastener::Friction::of(0.146, 0.156), fastener::Friction::of(0.219, 0.319), {"test"}};
  question.torque = quantity::torque_of(67.7, TorqueUnit::FootPoundForce);
  question.prevailing = quantity::torque_of(12, TorqueUnit::FootPoundForce);
  const auto share = assess(question).tightened->yield_share;
  const auto at = [&](double thread, double head) {
    const auto friction = fastener::Friction::of(thread, head);
    question.friction = FrictionBand{friction, friction, {"test"}};
    return assess(question).tightened->yield_share.low;
  };
  CHECK(share.low < at(0.219, 0.319));
  CHECK_THAT(share.low, WithinAbs(at(0.146, 0.319), 1e-9));
  CHECK_THAT(share.low, WithinAbs(0.4585, 0.005));
  CHECK_THAT(share.high, WithinAbs(std::max(at(0.146, 0.156), at(0.219, 0.156)), 1e-9));
}

TEST_CASE("the usual torque is three quarters of proof", "[fastener]") {
  // Source: worked_examples WE08 (Machine Design Nov. 1977): 1/2-13 grade 5 clamps 9046 lbf at 75 %
  // of proof; dry 75.4 and lubricated 56.6 lbf.ft with K = 0.20 and 0.15. The friction band that
  // has these K gives these torques.
  auto question = question_of("1/2-13", Grade::Sae5);
  question.friction = FrictionBand::same(0.10965, 0.15333, {"test"});
  const auto advice = *assess(question).advice;
  CHECK_THAT(advice.nut_factor.low, WithinAbs(0.15, 0.001));
  CHECK_THAT(advice.nut_factor.high, WithinAbs(0.20, 0.001));
  CHECK_THAT(quantity::in_unit(advice.for_proof_share.low, TorqueUnit::FootPoundForce),
             WithinRel(56.56, 0.008));
  CHECK_THAT(quantity::in_unit(advice.for_proof_share.high, TorqueUnit::FootPoundForce),
             WithinRel(75.42, 0.006));
  question.torque = advice.for_proof_share.low;
  CHECK_THAT(assess(question).tightened->preload.high.in_pounds_force(), WithinRel(9046.0, 0.001));
}

TEST_CASE("a running torque makes no preload", "[fastener]") {
  auto question = question_of("M12", Grade::Class8_8);
  question.torque = Torque::newton_metres(80);
  const auto plain = assess(question);
  question.prevailing = Torque::newton_metres(6);
  question.torque = Torque::newton_metres(86);
  const auto locking = assess(question);
  CHECK_THAT(locking.tightened->preload.high / plain.tightened->preload.high, WithinAbs(1, 1e-12));
  CHECK_THAT((locking.advice->plausible.low - plain.advice->plausible.low).in_newton_metres(),
             WithinAbs(6, 1e-12));
  CHECK_THAT((locking.tightened->loosening.low - plain.tightened->loosening.low).in_newton_metres(),
             WithinAbs(6, 1e-12));
  question.torque = Torque::newton_metres(6);
  CHECK_THROWS_AS(assess(question), failure::InputError);
}

TEST_CASE("without a friction there is no advice, without a grade at this size nothing",
          "[fastener]") {
  auto question = question_of("M12", Grade::Class8_8);
  question.condition = Condition::Threadlocker;
  question.torque = Torque::newton_metres(80);
  CHECK_FALSE(assess(question).advice);
  CHECK_FALSE(assess(question).tightened);
  question.friction = exactly(0.2);
  CHECK(assess(question).tightened);
  CHECK_THROWS_AS(assess(question_of("M20", Grade::Class9_8)), failure::InputError);
}

TEST_CASE("a wider face takes more torque", "[fastener]") {
  auto question = question_of("M12", Grade::Class8_8);
  question.torque = Torque::newton_metres(80);
  const auto usual = assess(question);
  question.bearing = usual.bearing * 1.2;
  const auto flanged = assess(question);
  CHECK(flanged.tightened->preload.high < usual.tightened->preload.high);
  CHECK(flanged.advice->plausible.high > usual.advice->plausible.high);
}

TEST_CASE("thread and head friction count apart", "[fastener]") {
  // Worked by hand with T = F [P/2π + μt d2/(2 cos 30°) + μh Dkm/2]: M12x1.75, Dkm 15.065 mm,
  // d2 10.863 mm, μt 0.10, μh 0.16: 0.2785 + 0.6272 + 1.2052 = 2.1109 mm; 80 N·m make 37.90 kN.
  auto question = question_of("M12", Grade::Class8_8);
  question.torque = Torque::newton_metres(80);
  const auto apart = fastener::Friction::of(0.10, 0.16);
  question.friction = FrictionBand{apart, apart, {"test"}};
  const auto bolt = assess(question);
  CHECK_THAT(bolt.tightened->preload.low.in_newtons(), WithinAbs(37898, 20));
  // The thread's friction alone twists the bolt.
  question.friction = exactly(0.10);
  question.torque = bolt.tightened->preload.low *
                    (assess(question).advice->nut_factor.low * question.thread.diameter());
  CHECK_THAT(assess(question).tightened->yield_share.low,
             WithinRel(bolt.tightened->yield_share.low, 1e-9));
}

TEST_CASE("every bolt that can be asked about is assessed in order", "[fastener]") {
  holds_always("low before high, loosening below tightening", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto grade = static_cast<Grade>(*rc::gen::inRange(0, static_cast<int>(Grade::A4_80) + 1));
    RC_PRE(fastener::strength_of(grade, thread).has_value());
    BoltQuestion question{thread,       grade,        *rc::gen::elementOf(fastener::kConditions),
                          std::nullopt, std::nullopt, std::nullopt,
                          std::nullopt};
    question.torque = Torque::newton_metres(*rc::gen::inRange(1, 100'000) / 10.0);
    const auto bolt = assess(question);
    RC_ASSERT(bolt.tightened.has_value() == bolt.advice.has_value());
    RC_ASSERT(bolt.proof_load < bolt.yield_load);
    RC_ASSERT(bolt.yield_load < bolt.tensile_load);
    if (!bolt.tightened) return;
    RC_ASSERT(bolt.tightened->preload.low < bolt.tightened->preload.high);
    RC_ASSERT(bolt.tightened->proof_share.low < bolt.tightened->proof_share.high);
    RC_ASSERT(bolt.tightened->yield_share.low <= bolt.tightened->yield_share.high);
    RC_ASSERT(bolt.tightened->loosening.low < bolt.tightened->loosening.high);
    RC_ASSERT(bolt.tightened->loosening.high < *question.torque);
    RC_ASSERT(bolt.advice->plausible.high < bolt.advice->yields_at);
  });
}

}  // namespace bolt_assessment_test
