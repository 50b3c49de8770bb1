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

// Records how many came off, in a line that tells the count after it. Refusal where some of the
// item are off already, UsageError where a new one has no name.
Done record_items_off(logbook::Logbook& logbook, const logbook::Writer& writer,
                      const ItemWords& words);

// Records how many are back. Refusal where there is no such item or more would be back than came
// off.
Done record_items_back(logbook::Logbook& logbook, const logbook::Writer& writer,
                       const ItemWords& words);

}  // namespace act
