#include "fastener/settling.h"

#include "support/check_values.h"
#include "support/property.h"
#include "support/published.h"

namespace settling_test {

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

TEST_CASE("the loss to neighbours is a band with one published end", "[fastener]") {
  // No published losses of single bolts were found to check it by (settling.h); what it must be by
  // its nature: none without later neighbours or without a rise, more with more of either, and
  // never past the figure it stands on.
  holds_always("between nothing and 35 %, growing with both", [] {
    const int later = *rc::gen::inRange(0, 3);
    const double raised = *rc::gen::inRange(0, 1001) / 1000.0;
    const auto band = fastener::neighbour_loss(later, raised);
    RC_ASSERT(band.low.in_percent() == 0.0);
    RC_ASSERT(band.high.in_percent() >= 0.0);
    RC_ASSERT(band.high.in_percent() <= 35.0 + 1e-9);
    RC_ASSERT((band.high.in_percent() == 0.0) == (later == 0 || raised == 0.0));
    if (later < 2) {
      RC_ASSERT(fastener::neighbour_loss(later + 1, raised).high.in_percent() >=
                band.high.in_percent());
    }
    RC_ASSERT(fastener::neighbour_loss(later, raised * 0.5).high.in_percent() <=
              band.high.in_percent());
  });
}

TEST_CASE("losses published elsewhere lie in the bands, but for those that are said",
          "[fastener][published]") {
  // Source: losses.csv; none of them was used to write the bands. What lies beyond is told where
  // the bands are shown (sequence --explain), and must stay so: a band wide enough for a wind tower
  // would say nothing of a gearbox.
  std::size_t inside = 0;
  for (const auto& row : read_check_values("losses.csv")) {
    INFO(row.at("of"));
    const double loss = std::stod(row.at("loss_percent"));
    const auto known = published_as(row.at("how_known"));
    const auto& name = row.at("band");
    const auto band = name == "five days" ? fastener::five_day_loss() : fastener::embedding_loss();
    if (name == "embedding" || name == "five days") {
      CHECK_PUBLISHED(known, loss,
                      WithinAbs((band.low + band.high).in_percent() / 2.0,
                                (band.high - band.low).in_percent() / 2.0 + 1e-9));
      ++inside;
    } else if (name == "beyond") {
      CHECK(loss > band.high.in_percent());
      CHECK(loss <= fastener::kBeyondTheBand.in_percent());
    } else {
      CHECK(loss > fastener::neighbour_loss(2, 1.0).high.in_percent());
    }
  }
  CHECK(inside == 7);
}

}  // namespace settling_test
