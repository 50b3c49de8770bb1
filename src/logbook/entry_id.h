#pragma once

#include <string>
#include <string_view>

#include "record/moment.h"

namespace logbook {

// A new entry id: a version 7 UUID (RFC 9562 section 5.7) of `now` and 74 random bits, and always
// above `last_id` (the highest id so far, or empty): where the clock has stood still or gone back,
// the random part counts on from the last id instead, by a random step (section 6.2, method 2).
[[nodiscard]] std::string next_entry_id(record::Moment now, const std::string& last_id);

// The part of an entry's id that whoever wants the entry chose himself: a phone whose link drops
// sends a deed again until it is answered, and by this it is taken once.
struct GivenId {
  std::string tail;   // the variant and 62 random bits as a UUID is written: "9abc-0123456789ab"
  std::string check;  // three hexadecimal digits of a hash of what was asked for

  bool operator==(const GivenId&) const = default;
};

// True for such a tail, in lower case.
[[nodiscard]] bool is_id_tail(std::string_view text);

// The tail and the check of an entry's id, whoever chose them.
[[nodiscard]] GivenId given_in(std::string_view id);

// A new entry id as next_entry_id makes it, with this tail and, in the 12 bits before it, this
// check. Where the clock has stood still or gone back, its time counts on from the last id by a
// millisecond (RFC 9562 section 6.2).
[[nodiscard]] std::string entry_id_with(record::Moment now, const std::string& last_id,
                                        const GivenId& given);

// A random version 4 UUID, for a device's identity.
[[nodiscard]] std::string random_id();

}  // namespace logbook
