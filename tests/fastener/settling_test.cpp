#include "fastener/settling.h"

#include "support/published.h"

TEST_CASE("what a bolt loses without turning is what was published", "[fastener][published]") {
  // Source: NASA TM-106943: embedding 2 to 10 % (seen). Munse 1967, as the commentary of the RCSC
  // specification of 2004 quotes it: 2.5 % of a bare and 6.5 % of a galvanized joint within five
  // days (seen). Up to 35 % to neighbours (a reference page on sequences, seen).
  CHECK_PUBLISHED(Published::Seen, fastener::embedding_loss().low.in_percent(),
                  WithinAbs(2, 1e-12));
  CHECK_PUBLISHED(Published::Seen, fastener::embedding_loss().high.in_percent(),
                  WithinAbs(10, 1e-12));
  CHECK_PUBLISHED(Published::Seen, fastener::five_day_loss().low.in_percent(),
                  WithinAbs(2.5, 1e-12));
  CHECK_PUBLISHED(Published::Seen, fastener::five_day_loss().high.in_percent(),
                  WithinAbs(6.5, 1e-12));
  CHECK_PUBLISHED(Published::Seen, fastener::neighbour_loss(2, 1.0).high.in_percent(),
                  WithinAbs(35, 1e-12));
  CHECK(fastener::neighbour_loss(0, 1.0).high.in_percent() == 0.0);
  CHECK_THAT(fastener::neighbour_loss(1, 0.3).high.in_percent(), WithinAbs(5.25, 1e-12));
}
