#pragma once

#include <string>

#include "act/done.h"
#include "logbook/recording.h"

namespace act {

// What becomes of a deviation, as typed.
struct DecisionWords {
  std::string deviation;
  std::string decision;
  std::string why;
  std::string second_person;  // who agrees; may be nobody
};

// Records the decision in a line of its own; remarks on the holds that are still open. Refusal
// where the audit names no such deviation, it is settled already, or a second person is missing.
Done settle(logbook::Logbook& logbook, const logbook::Writer& writer, const DecisionWords& words);

}  // namespace act
