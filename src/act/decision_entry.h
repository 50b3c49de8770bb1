#pragma once

#include <string>
#include <vector>

#include "act/done.h"
#include "logbook/recording.h"

namespace act {

// What becomes of a deviation, as typed: a decision with its reason, or what was done of it.
struct DecisionWords {
  std::vector<std::string> deviations;  // by their ids; of one decision for all
  std::string decision;
  std::string why;
  std::string second_person;  // who agrees; may be nobody
  std::string done;           // what was done; then neither decision nor reason
};

// Records the decision in a line for each deviation, all or none, or that a repair or a correction
// of the record has been carried out; remarks on the holds that are still open. Refusal where the
// audit names no such deviation, it is settled already, a second person is missing, or nothing is
// there to be done; UsageError where the words are neither the one nor the other.
Done settle(logbook::Logbook& logbook, const logbook::Writer& writer, const DecisionWords& words);

}  // namespace act
