#pragma once

#include <string>

namespace record {

// What came off without a torque and has to go back in full: clips, hoses, connectors, dowels.
struct CountedItem {
  std::string code;
  std::string what;
  int count = 0;
  std::string before;  // the joint that may not be closed without it; empty for none
};

// So many of an item are back in their place.
struct ItemReturn {
  std::string code;
  int count = 0;
};

}  // namespace record
