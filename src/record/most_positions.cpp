#include "record/most_positions.h"

#include <fmt/format.h>

#include "failure/failure.h"

namespace record {

void check_position_total(double positions) {
  if (positions <= kMostPositionsInAll) return;
  throw failure::InputError(fmt::format(
      "the joints of this logbook have {:.0f} positions together; expected at most {}; "
      "look for a --count that slipped, and take each machine into a logbook of its own",
      positions, kMostPositionsInAll));
}

}  // namespace record
