#pragma once

#include <string>
#include <vector>

#include "progress/item_count.h"
#include "report/text.h"

namespace report {

// "6 off, 4 back, 2 missing".
[[nodiscard]] std::string count_in_words(const progress::ItemCount& count);

// One row an item: off, back, missing, and the joint that may not be closed before.
[[nodiscard]] std::string items_text(const std::vector<progress::ItemCount>& counts);

// {"items":[{"code","what","off","back","missing","before"}]}; "before" is null where none is.
[[nodiscard]] std::string items_json(const std::vector<progress::ItemCount>& counts);

}  // namespace report
