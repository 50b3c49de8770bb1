#pragma once

#include <string>

#include "record/in_job.h"

namespace record {

// What came off without a torque and has to go back in full: clips, hoses, connectors, dowels.
struct CountedItem {
  std::string code;
  std::string what;
  int count = 0;
  std::string before;  // the joint that may not be closed without it; empty for none

  bool operator==(const CountedItem&) const = default;
};
template <>
struct InJob<CountedItem> {
  std::vector<Entry<CountedItem>> items;
};

// So many of an item are back in their place.
struct ItemReturn {
  std::string code;
  int count = 0;
};
template <>
struct InJob<ItemReturn> {
  std::vector<Entry<ItemReturn>> item_returns;
};

}  // namespace record
