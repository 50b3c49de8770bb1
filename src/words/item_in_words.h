#pragma once

#include <string>

#include "progress/item_count.h"

namespace words {

// "6 off, 4 back, 2 missing".
[[nodiscard]] std::string count_in_words(const progress::ItemCount& count);

}  // namespace words
