#pragma once

#include <string>

#include "record/history_line.h"

namespace words {

// "STRUCK ", or that it is not what was written either, before what a line says; empty where it
// stands.
[[nodiscard]] std::string struck_mark(const record::HistoryLine& line);

// Who struck a line that is struck, in which line, when and why.
[[nodiscard]] std::string strike_in_words(const record::HistoryLine& line);

}  // namespace words
