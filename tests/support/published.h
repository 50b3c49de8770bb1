#pragma once

#include <cstddef>
#include <string>

#include "support/catch.h"

// How a published value is known: read in its source, or recalled without having it at hand.
enum class Published { Seen, FromMemory };

// The word of a check-value file, "seen" or "memory". Throws for any other.
[[nodiscard]] Published published_as(const std::string& how_known);

// Comparisons with published values made so far in this process. Values that were worked by hand,
// computed by another tool or derived from published ones are not among them, and a value that is
// compared a second time through the command line is counted once.
struct PublishedCount {
  std::size_t seen = 0;
  std::size_t from_memory = 0;
};
[[nodiscard]] PublishedCount published_count();
void count_published(Published known);

// "published values checked: 1342 (seen 1100, from memory 242)"; empty where none was.
[[nodiscard]] std::string published_line(const PublishedCount& count);

// CHECK_THAT for a published value: compared, and counted.
#define CHECK_PUBLISHED(known, value, matcher) \
  do {                                         \
    count_published(known);                    \
    CHECK_THAT(value, matcher);                \
  } while (false)
