#pragma once

#include <string>

#include "act/correction.h"
#include "act/done.h"

namespace act {

// Final stripes, as typed.
struct StripeWords {
  std::string address;
  bool wiped = false;  // the teardown mark was wiped off first
  bool not_wiped =
      false;  // it is still there; said by neither, as the line that is replaced had it
  std::string counter;
  Correction correction;
};

// Records the final stripes in a line of its own. Refusal where one of the positions has not
// reached its final value.
Done draw_stripe(logbook::Logbook& logbook, const logbook::Writer& writer,
                 const StripeWords& words);

}  // namespace act
