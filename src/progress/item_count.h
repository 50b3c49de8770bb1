#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/job.h"

namespace progress {

// How many of one counted item came off and how many are back in their place.
struct ItemCount {
  const record::CountedItem* item = nullptr;  // its latest entry
  const record::Stamp* first_off = nullptr;   // when the first of it came off
  int off = 0;                                // in all: what came off at each opening adds up
  int back = 0;                               // in all
  [[nodiscard]] int missing() const { return off - back; }
};

// Every item of the job by its code, in the order of its first entry. What is recorded as back of
// an item that is not (or no longer) in the logbook counts for nothing.
[[nodiscard]] std::vector<ItemCount> item_counts(const record::Job& job);

// The count of that code in any case of letters; nullptr where there is none.
[[nodiscard]] const ItemCount* count_of(const std::vector<ItemCount>& counts,
                                        std::string_view code);

}  // namespace progress
