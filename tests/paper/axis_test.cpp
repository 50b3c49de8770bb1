#include "paper/axis.h"

#include "support/property.h"

namespace axis_test {

TEST_CASE("an axis holds its ends and is marked in round numbers", "[paper]") {
  const auto axis = paper::axis_for(60.0, 95.0);
  CHECK(axis.ticks == std::vector<double>{60, 65, 70, 75, 80, 85, 90, 95});
  CHECK_THAT(axis.share(axis.high), WithinAbs(1.0, 1e-12));
  CHECK(paper::axis_for(0.0, 100.0).low == 0.0);

  holds_always("any two torques make an axis", [] {
    const double low = *rc::gen::inRange(0, 100'000) / 100.0;
    const double high = low + *rc::gen::inRange(0, 100'000) / 100.0;
    RC_PRE(high > 0.0);
    const auto any = paper::axis_for(low, high);
    RC_ASSERT(any.low <= low);
    RC_ASSERT(any.high >= high);
    RC_ASSERT(any.low >= 0.0);
    RC_ASSERT(any.ticks.size() >= 4U);
    RC_ASSERT(any.ticks.size() <= 11U);
    RC_ASSERT(any.ticks.front() >= any.low - 1e-6);
    RC_ASSERT(any.ticks.back() <= any.high + 1e-6);
  });
}

}  // namespace axis_test
