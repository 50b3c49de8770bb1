#include "fastener/preload_by_loosening.h"

#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/thread_generator.h"
#include "fastener/thread_text.h"
#include "fastener/tightening.h"
#include "support/check_values.h"
#include "support/published.h"

namespace preload_by_loosening_test {

using fastener::preload_by_loosening;
using fastener::read_thread;
using quantity::Force;
using quantity::Torque;

TEST_CASE("the difference of the torques is the preload", "[fastener]") {
  // Derived in the reference for M12x1.75: 80 and 47.77 N·m give 57.85 kN.
  const auto result = preload_by_loosening(
      read_thread("M12"), {Torque::newton_metres(80), Torque::newton_metres(47.77)});
  CHECK_THAT(result.preload.in_newtons(), WithinAbs(57'850, 20));
  // By hand: readings √(3.2² + 1.9108²) = 3.7270, friction 0.05 x 63.885 = 3.1943 N·m;
  // U = 2 π/(1.75 mm √3) x √(3.7270² + 3.1943²) = 10.175 kN, of the readings alone 7.726 kN.
  CHECK_THAT(result.expanded.in_newtons(), WithinRel(10'175, 0.001));
  CHECK_THAT(result.from_readings.in_newtons(), WithinRel(7'726, 0.001));
}

TEST_CASE("a loosening torque that rose says nothing", "[fastener]") {
  CHECK_THROWS_WITH(preload_by_loosening(read_thread("M12"),
                                         {Torque::newton_metres(80), Torque::newton_metres(80)}),
                    ContainsSubstring("friction has changed"));
}

TEST_CASE("friction cancels", "[fastener]") {
  holds_always("the preload of any bolt comes back whatever its friction", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto bearing = fastener::usual_bearing_diameter(thread);
    const auto friction =
        fastener::Friction::of(*rc::gen::inRange(2, 60) / 100.0, *rc::gen::inRange(2, 60) / 100.0);
    const auto preload = Force::newtons(*rc::gen::inRange(100, 1'000'000));
    const auto found = preload_by_loosening(
        thread, {fastener::tightening_torque(thread, bearing, friction, preload),
                 fastener::loosening_torque(thread, bearing, friction, preload)});
    RC_ASSERT(std::fabs(found.preload / preload - 1.0) < 1e-9);
    RC_ASSERT(found.expanded > found.from_readings);
  });
}

TEST_CASE("published screws give their load back by the torques both ways",
          "[fastener][published]") {
  // Source: power_screws.csv. A screw is a fastener with a large lead angle; what the linear
  // formula leaves out is the square of the thread friction, so each reads high by that.
  std::size_t published = 0;
  for (const auto& row : read_check_values("power_screws.csv")) {
    INFO(row.at("example"));
    const double load = std::stod(row.at("load_kn"));
    const double friction = std::stod(row.at("thread_friction"));
    const auto found =
        fastener::preload_of_difference(quantity::Length::millimetres(std::stod(row.at("lead_mm"))),
                                        {Torque::newton_metres(std::stod(row.at("raise_nm"))),
                                         Torque::newton_metres(std::stod(row.at("lower_nm")))});
    const auto agrees = WithinRel(load * (1.0 + friction * friction), 0.002);
    if (row.at("how_known") == "derived") {
      CHECK_THAT(found.in_newtons() / 1000.0, agrees);
      continue;
    }
    CHECK_PUBLISHED(published_as(row.at("how_known")), found.in_newtons() / 1000.0, agrees);
    ++published;
  }
  CHECK(published == 6);
}

}  // namespace preload_by_loosening_test
