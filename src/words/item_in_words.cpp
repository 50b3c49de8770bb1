#include "words/item_in_words.h"

#include <fmt/format.h>

namespace words {

std::string count_in_words(const progress::ItemCount& count) {
  return fmt::format("{} off, {} back, {} missing", count.off, count.back, count.missing());
}

}  // namespace words
