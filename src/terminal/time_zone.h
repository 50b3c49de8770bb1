#pragma once

#include <optional>
#include <string>

namespace terminal {

// True where this machine has a zone of this name (TZ, tzset(3)): one of its zone files, below
// `zone_folder` (TZDIR) where that is given, or rules written out such as
// "CET-1CEST,M3.5.0,M10.5.0/3", with hours, minutes and days that there are. The C library takes
// every other name for UTC or for some hours that nobody meant, without a word.
[[nodiscard]] bool is_known_zone(std::string name, const std::optional<std::string>& zone_folder);

// From now on this process reads and shows times as UTC.
void take_utc();

}  // namespace terminal
