#pragma once

#include <string>
#include <vector>

#include "progress/item_count.h"
#include "words/text.h"

namespace screen {

// One row an item: off, back, missing, and the joint that may not be closed before.
[[nodiscard]] std::string items_text(const std::vector<progress::ItemCount>& counts);

// {"items":[{"code","what","off","back","missing","before"}]}; "before" is null where none is.
[[nodiscard]] std::string items_json(const std::vector<progress::ItemCount>& counts);

}  // namespace screen
