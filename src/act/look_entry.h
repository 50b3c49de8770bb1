#pragma once

#include <optional>
#include <string>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "progress/turned_stripe.h"
#include "record/recheck.h"

namespace act {

// A later look at final stripes, as typed.
struct LookWords {
  std::string address;
  std::vector<std::string> state;  // "aligned", or "turned 15°" in one word or two
  std::string counter;
  bool really = false;  // it turned so far, however much that is
  Correction correction;
};

struct LookDone {
  Done done;
  record::Recheck recheck;
  // What a stripe that turned says of the preload; nothing where it did not turn or that is not
  // known.
  std::optional<progress::TurnedStripe> turned;
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;  // of the logbook
};

// What the machine's counter was said to show; nothing where nothing was said.
[[nodiscard]] std::optional<record::RunningAmount> counter_from(const std::string& typed);

// InputError where the joint is looked at again by a counter, and this reading is of another one:
// nothing could be told from it.
void check_counter(const record::Joint& joint, const record::RunningAmount& reading);

// Records the look in a line of its own. Refusal where there is no stripe to look at, or where one
// that turned before is called aligned.
LookDone record_look(logbook::Logbook& logbook, const logbook::Writer& writer,
                     const LookWords& words);

}  // namespace act
