#pragma once

#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace act {

// What is said of work on this joint at that moment while one that covers it was on: each that was,
// recorded as it happened. Whoever writes it may only have left out that the cover was off.
[[nodiscard]] std::vector<std::string> remarks_under_cover(const logbook::Logbook& logbook,
                                                           const std::string& joint,
                                                           record::Moment done_at);

// What covers the joint and is in, as far as is recorded, a sentence each: it comes off before.
[[nodiscard]] std::vector<std::string> covers_off_first(const logbook::Logbook& logbook,
                                                        const std::string& joint);

// What covers the joint and has never come out, as far as is recorded: a machine comes in with its
// covers on, so that it comes off before.
[[nodiscard]] std::vector<std::string> remarks_on_covers_in(const logbook::Logbook& logbook,
                                                            const std::string& joint);

}  // namespace act
