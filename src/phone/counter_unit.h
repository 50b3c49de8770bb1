#pragma once

#include <nlohmann/json.hpp>

#include "progress/finish_commands.h"
#include "record/running_amount.h"

namespace phone {

// The unit in which the machine's counter is read when this joint gets its final stripe: "running
// h", or null where no counter is asked for.
inline nlohmann::ordered_json unit_of_counter(const record::Joint& joint) {
  const auto counter = progress::counter_of(joint);
  return counter ? nlohmann::ordered_json(record::word_of(*counter)) : nullptr;
}

}  // namespace phone
