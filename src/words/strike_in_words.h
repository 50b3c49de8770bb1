#pragma once

#include <string>

#include "record/history_line.h"

namespace words {

// Who struck a line that is struck, in which line, when and why.
[[nodiscard]] std::string strike_in_words(const record::HistoryLine& line);

}  // namespace words
