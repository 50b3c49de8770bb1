#pragma once

#include <string>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "progress/item_count.h"

namespace act {

// Counted items that came off or are back, as typed.
struct ItemWords {
  std::string code;
  std::string what;
  std::string count;   // that came off
  std::string before;  // the joint that may not be closed without them
  std::string back;    // that are back
  Correction correction;
};

// The item of this code. Refusal, with the nearest known one, where there is none.
[[nodiscard]] const progress::ItemCount& item_or_refuse(
    const std::vector<progress::ItemCount>& counts, const std::string& code);

// Records how many came off or how many are back, in a line that tells the count after it; what
// replaces an earlier line keeps of it what is not stated anew. Refusal where some of the item are
// off already, where there is no such item, or where more would be back than came off; UsageError
// where neither number is said, or a new item has no name.
Done record_items(logbook::Logbook& logbook, const logbook::Writer& writer, const ItemWords& words);

}  // namespace act
