#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/job.h"

namespace progress {

// How many of one counted item came off and how many are back in their place.
struct ItemCount {
  // So many that came off (above zero) or went back (below), and by which line.
  struct Move {
    const record::Stamp* stamp = nullptr;
    int count = 0;
  };

  const record::CountedItem* item = nullptr;  // its latest entry
  const record::Stamp* first_off = nullptr;   // when the first of it came off
  int off = 0;                                // in all: what came off at each opening adds up
  int back = 0;                               // in all
  std::vector<Move> moves = {};
  [[nodiscard]] int missing() const { return off - back; }
  // Off and not back by this moment, going by the times.
  [[nodiscard]] int missing_at(record::Moment moment) const;
  // The same when this line was done. What is dated alike came off before it only where it was
  // entered before it, and was back by then in any case: of a day alone nobody knows the hour.
  [[nodiscard]] int missing_at(const record::Stamp& line) const;
};

// Every item of the job by its code, in the order of its first entry. What is recorded as back of
// an item that is not (or no longer) in the logbook counts for nothing.
[[nodiscard]] std::vector<ItemCount> item_counts(const record::Job& job);

// The count of that code in any case of letters; nullptr where there is none.
[[nodiscard]] const ItemCount* count_of(const std::vector<ItemCount>& counts,
                                        std::string_view code);

}  // namespace progress
