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

}  // namespace act
