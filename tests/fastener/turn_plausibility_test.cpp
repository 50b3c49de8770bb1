#include "fastener/turn_plausibility.h"

#include "fastener/lost_preload.h"
#include "fastener/thread_generator.h"
#include "fastener/thread_text.h"
#include "support/published.h"

namespace turn_plausibility_test {

using fastener::Grade;
using fastener::judge_turn;
using fastener::PreloadBand;
using fastener::read_thread;
using fastener::turn_limits;
using fastener::TurnVerdict;
using quantity::Angle;
using quantity::Force;
using quantity::Length;

namespace {

const PreloadBand kSnug{Force::newtons(0), Force::newtons(0)};
const auto kFriction =
    fastener::friction_band(fastener::Condition::AsReceived, fastener::BoltMetal::Steel).value();

}  // namespace

TEST_CASE("the nut rotations of structural bolts are plausible", "[fastener][published]") {
  // Source: a supplier's table after the RCSC specification (seen): from snug 1/3 turn up to 4 d,
  // 1/2 turn up to 8 d, 2/3 turn up to 12 d, for A325 bolts of 1/2 to 1-1/4 in. The rotations are
  // meant to yield the bolt; each is taken at the longest bolt it is given for (the table prints
  // 6, 7.5, 9, 10.5, 13.5, 15 and 16.5 in for two thirds), and compared with the middle of what
  // makes the least pretension in every bolt and what no procedure should ask for.
  struct Row {
    const char* thread;
    double third, half, two_thirds;  // inches
  };
  const Row rows[] = {{"1/2-13", 2, 4, 6},     {"5/8-11", 2.5, 5, 7.5}, {"3/4-10", 3, 6, 9},
                      {"7/8-9", 3.5, 7, 10.5}, {"1-8", 4, 8, 13.5},     {"1-1/8-7", 4.5, 9, 15},
                      {"1-1/4-7", 5, 10, 16.5}};
  for (const auto& row : rows) {
    const auto thread = read_thread(row.thread);
    const auto strength = fastener::strength_of(Grade::AstmA325, thread).value();
    for (const auto& [turn, inches] :
         {std::pair{120.0, row.third}, {180.0, row.half}, {240.0, row.two_thirds}}) {
      INFO(row.thread << " of " << inches << " in");
      const auto length = Length::inches(inches);
      const auto limits = turn_limits(thread, strength, kFriction, length, kSnug);
      const auto per_degree = fastener::lost_preload(thread, length, Angle::degrees(1)).low;
      const double pretension = fastener::load_at(strength.tensile, thread) * 0.7 / per_degree;
      const double most = limits.most.in_degrees();
      CHECK_PUBLISHED(Published::Seen, turn,
                      WithinAbs((pretension + most) / 2.0, (most - pretension) / 2.0));
      CHECK(judge_turn(limits, Angle::degrees(turn)) != TurnVerdict::TooLittle);
      CHECK(judge_turn(limits, Angle::degrees(turn)) != TurnVerdict::TooMuch);
    }
  }
}

TEST_CASE("a slip in an angle is seen", "[fastener]") {
  const auto thread = read_thread("M10");
  const auto strength = fastener::strength_of(Grade::Class10_9, thread).value();
  const auto limits = turn_limits(thread, strength, kFriction, Length::millimetres(90), kSnug);
  CHECK(judge_turn(limits, Angle::degrees(9)) == TurnVerdict::TooLittle);
  CHECK(judge_turn(limits, Angle::degrees(45)) == TurnVerdict::Elastic);
  CHECK(judge_turn(limits, Angle::degrees(100)) == TurnVerdict::MayYield);
  CHECK(judge_turn(limits, Angle::degrees(180)) == TurnVerdict::Yields);
  CHECK(judge_turn(limits, Angle::degrees(1800)) == TurnVerdict::TooMuch);
}

TEST_CASE("the limits of a turn stand in order", "[fastener]") {
  holds_always("clamps, yields from, yields by, most", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto grade = static_cast<Grade>(*rc::gen::inRange(0, static_cast<int>(Grade::A4_80) + 1));
    const auto strength = fastener::strength_of(grade, thread);
    RC_PRE(strength.has_value());
    const auto length = thread.diameter() * (*rc::gen::inRange(5, 150) / 10.0);
    const auto limits = turn_limits(thread, *strength, kFriction, length, kSnug);
    RC_ASSERT(limits.clamps < limits.yields_from);
    RC_ASSERT(limits.yields_from < limits.yields_by);
    RC_ASSERT(limits.yields_by < limits.most);
    // A seat that is already tight needs less turn.
    const auto half = fastener::load_at(strength->yield, thread) * 0.5;
    const auto after = turn_limits(thread, *strength, kFriction, length, {half, half});
    RC_ASSERT(after.yields_by < limits.yields_by);
  });
}

}  // namespace turn_plausibility_test
