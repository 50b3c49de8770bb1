#pragma once

namespace record {

// The most positions that all joints of a logbook have together; a guard against slipped keys and
// against files that take all memory, not a design limit: as many are walked through in seconds.
inline constexpr int kMostPositionsInAll = 2'000'000;

// InputError where they are more; whatever a file holds can be added up as `double`.
void check_position_total(double positions);

}  // namespace record
