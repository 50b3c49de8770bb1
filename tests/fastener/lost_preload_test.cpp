#include "fastener/lost_preload.h"

#include "fastener/thread_text.h"
#include "fastener/turn_of_nut.h"
#include "support/property.h"

namespace lost_preload_test {

using fastener::lost_preload;
using fastener::Stiffness;
using quantity::Angle;
using quantity::Length;

TEST_CASE("the band holds a joint whose stiffness is known", "[fastener]") {
  // Source: Example 8-3 of Shigley 9th ed. (3/4-16, kb 6.50, km 13.8 Mlbf/in, seen), turn of nut
  // derived: 767.1 lbf per degree. Its kb is that of a shank stretched over 2.04 in, so about 2.5
  // in under the head.
  const auto band =
      lost_preload(fastener::read_thread("3/4-16"), Length::inches(2.5), Angle::degrees(1.0));
  CHECK(band.low.in_pounds_force() < 767.1);
  CHECK(band.high.in_pounds_force() > 767.1);
}

TEST_CASE("both ends are the formula at their own assumptions", "[fastener]") {
  // M10x1.5, 60 mm under the head, 15°: worked by hand from dF = (15/360) 1.5 mm kb (1 - C).
  //   low   As = 57.99 mm², l = 60 mm, C = 0.33:  206843 * 57.99/60 = 199913 N/mm -> 8371 N
  //   high  A = 78.54 mm², l = 45 mm, C = 0.114:  206843 * 78.54/45 = 361010 N/mm -> 19991 N
  const auto band =
      lost_preload(fastener::read_thread("M10"), Length::millimetres(60), Angle::degrees(15.0));
  CHECK_THAT(band.low.in_newtons(), WithinRel(8371.0, 1e-3));
  CHECK_THAT(band.high.in_newtons(), WithinRel(19991.0, 1e-3));
}

TEST_CASE("the loss grows with the turn, and a short bolt loses more", "[fastener]") {
  holds_always("proportional to the turn", [] {
    const double length = *rc::gen::inRange(10, 300);
    const double turn = *rc::gen::inRange(1, 90);
    const auto thread = fastener::read_thread("M12");
    const auto once = lost_preload(thread, Length::millimetres(length), Angle::degrees(turn));
    const auto twice = lost_preload(thread, Length::millimetres(length), Angle::degrees(2 * turn));
    const auto longer =
        lost_preload(thread, Length::millimetres(length + 20), Angle::degrees(turn));
    RC_ASSERT(once.low < once.high);
    RC_ASSERT(std::abs(twice.high / once.high - 2.0) < 1e-12);
    RC_ASSERT(longer.low < once.low);
  });
}

}  // namespace lost_preload_test
