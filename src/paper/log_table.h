#pragma once

#include <vector>

#include "paper/markup.h"
#include "record/history_line.h"

namespace paper {

// Every line of the log as it was entered: number, when it was done, who, what it says; struck ones
// struck through, with the word, the line that struck them, who, when and why.
void write_log_table(Markup& page, const std::vector<record::HistoryLine>& lines);

}  // namespace paper
