#pragma once

#include <vector>

namespace plan {

// The cross pattern: the order in which the positions 1..count on a circle are tightened, so that
// each pull is answered from across. It equals every published sequence we hold: the legacy
// cross-pattern table of ASME PCC-1 (4 to 32 in fours, 36 to 48 in groups; from memory, 12 seen in
// a second source) and the wheel stars for 4, 5, 6, 8 and 10 (workshop convention).
//
// Rule, found by us and checked against those sequences; it also fills the counts between them:
// - To 32 positions the circle falls into quarters (count divisible by 4), halves (even) or is one
//   part (odd) of q = count/4, count/2 or count positions. Each place b of the first part, taken in
//   the spread order of a ring of q (see spread.h), brings b, b + 2q, b + q, b + 3q; or b, b + q;
//   or b alone.
// - Beyond 32 groups of neighbours are tightened as one, ceil(count/12) to a group and never more
//   than four; the last group may be short. Up to 12 groups m go, for b = 1..ceil(m/4), in the
//   order b, b + ceil(m/2), b + ceil(m/4), b + ceil(m/2) + ceil(m/4). More groups, beyond all
//   published sequences, go as single positions to 32 do.
//
// count >= 1. Time grows with the square of the count of groups.
[[nodiscard]] std::vector<int> cross_pattern(int count);

// True where a published sequence for this count is among those the pattern was checked against.
[[nodiscard]] bool is_published_count(int count);

// How many neighbours the pattern tightens as one: 1 up to 32 positions.
[[nodiscard]] int group_size(int count);

}  // namespace plan
