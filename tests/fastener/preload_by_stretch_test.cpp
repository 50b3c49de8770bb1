#include "fastener/preload_by_stretch.h"

#include "failure/failure.h"
#include "fastener/thread_generator.h"
#include "fastener/thread_geometry.h"
#include "fastener/thread_text.h"
#include "support/check_values.h"
#include "support/published.h"

namespace preload_by_stretch_test {

using fastener::preload_by_stretch;
using fastener::read_thread;
using quantity::Length;

TEST_CASE("a bolt stretched all along its thread takes the published loads",
          "[fastener][published]") {
  // Source: elongations.csv, a chart of a maker of bolt gauges on a reference page (seen):
  // thousandths of an inch for each inch of grip at shares of yield, E 30 Mpsi; one decimal, some
  // cut. The soft end of the band is the stress area over all of the length, as the chart takes it.
  const auto thread = read_thread("1/2-13");
  const auto inch = Length::inches(1);
  const double area = fastener::stress_area(thread).in_square_inches();
  const double pounds_for_a_thousandth =
      preload_by_stretch(thread, inch, Length::inches(0.001)).low.in_pounds_force();
  int checked = 0;
  for (const auto& row : read_check_values("elongations.csv")) {
    INFO(row.at("material") << " at " << row.at("percent_of_yield") << " %");
    const double pounds = 1000.0 * std::stod(row.at("yield_ksi")) *
                          std::stod(row.at("percent_of_yield")) / 100.0 * area;
    CHECK_PUBLISHED(Published::Seen, pounds / pounds_for_a_thousandth,
                    WithinAbs(std::stod(row.at("thousandths_of_an_inch")), 0.07));
    ++checked;
  }
  CHECK(checked == 35);
  // Source: a reference page's example (seen): 10,000 lbf on 5 in of 7/8-9 make 0.0036 in.
  CHECK_PUBLISHED(
      Published::Seen,
      10'000.0 / preload_by_stretch(read_thread("7/8-9"), Length::inches(5), Length::inches(1))
                     .low.in_pounds_force(),
      WithinAbs(0.0036, 0.00005));
}

TEST_CASE("the stiff end is the shank over what is free", "[fastener]") {
  // Worked by hand: M10, 40 mm under the head, 0.06 mm. Soft: 57.99 mm² over 40 mm; stiff:
  // 78.54 mm² over 25 mm; E 206,843 MPa. 17.99 and 38.99 kN.
  const auto band =
      preload_by_stretch(read_thread("M10"), Length::millimetres(40), Length::millimetres(0.06));
  CHECK_THAT(band.low.in_newtons(), WithinRel(17'992.0, 0.001));
  CHECK_THAT(band.high.in_newtons(), WithinRel(38'989.0, 0.001));
  CHECK_THROWS_AS(
      preload_by_stretch(read_thread("M10"), Length::millimetres(40), Length::millimetres(0)),
      failure::InputError);
}

TEST_CASE("preload goes with the stretch", "[fastener]") {
  holds_always("twice the stretch is twice the preload, and soft is below stiff", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto length = thread.diameter() * (*rc::gen::inRange(5, 150) / 10.0);
    const auto stretch = Length::millimetres(*rc::gen::inRange(1, 1000) / 1000.0);
    const auto once = preload_by_stretch(thread, length, stretch);
    const auto twice = preload_by_stretch(thread, length, stretch * 2.0);
    RC_ASSERT(once.low < once.high);
    RC_ASSERT(std::fabs(twice.low / once.low - 2.0) < 1e-9);
    RC_ASSERT(std::fabs(twice.high / once.high - 2.0) < 1e-9);
  });
}

}  // namespace preload_by_stretch_test
