#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "paper/markup.h"
#include "record/history_line.h"

namespace paper {

// A row of a table of log lines: one line, or several that say the same of several positions.
struct LogRow {
  std::string line;  // number, or numbers
  std::string done;  // when
  std::string by;
  std::string says;
  const record::HistoryLine* struck = nullptr;  // where it was struck
};

// Number, when it was done, who, what it says; struck ones struck through, with the word, the line
// that struck them, who, when and why.
void write_log_rows(Markup& page, std::string_view name, const std::vector<LogRow>& rows);

// A line as it was entered.
[[nodiscard]] LogRow log_row(const record::HistoryLine& line);

}  // namespace paper
