#pragma once

#include "failure/failure.h"

namespace dialogue {

// True for what the person at the prompt can put right by another answer: bad input, or a refusal.
// Trouble with the logbook or the output ends the dialogue.
[[nodiscard]] inline bool is_for_the_person(const failure::Failure& error) {
  return error.exit_code() == failure::kWrongUsage || error.exit_code() == failure::kNotInOrder;
}

}  // namespace dialogue
