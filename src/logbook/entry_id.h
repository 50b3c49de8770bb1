#pragma once

#include <string>

#include "record/moment.h"

namespace logbook {

// A new entry id: a version 7 UUID (RFC 9562 section 5.7) of `now` and 74 random bits, and always
// above `last_id` (the highest id so far, or empty): where the clock has stood still or gone back,
// the random part counts on from the last id instead, by a random step (section 6.2, method 2).
[[nodiscard]] std::string next_entry_id(record::Moment now, const std::string& last_id);

// A random version 4 UUID, for a device's identity.
[[nodiscard]] std::string random_id();

}  // namespace logbook
