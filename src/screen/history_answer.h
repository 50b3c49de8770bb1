#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "record/history_line.h"
#include "record/unreadable_line.h"
#include "words/text.h"

namespace screen {

// The lines as they were entered, one after the other: number, when it was done, who, what; struck
// ones shown struck, with who struck them, when and why.
[[nodiscard]] std::string history_text(const std::vector<record::HistoryLine>& lines,
                                       const words::Page& page);

// The same for a whole logbook, with the lines that cannot be read in their places. Of many lines
// the last; `whole` is the command that shows all, empty where that was given.
[[nodiscard]] std::string history_text(const std::vector<record::HistoryLine>& lines,
                                       const std::vector<record::UnreadableLine>& unreadable,
                                       std::string_view whole, const words::Page& page);

// {"lines":[{"line","id","done_at","entered_at","by","says","struck":{"line","by","done_at","why"}
// |null}],"unreadable":[{"line","id","kind","why","struck"}]}
[[nodiscard]] std::string history_json(const std::vector<record::HistoryLine>& lines,
                                       const std::vector<record::UnreadableLine>& unreadable);
// The lines alone, an object in one line of text each, in the order of the logbook.
[[nodiscard]] std::string history_json_lines(const std::vector<record::HistoryLine>& lines,
                                             const std::vector<record::UnreadableLine>& unreadable);
[[nodiscard]] nlohmann::ordered_json history_row_json(const record::HistoryLine& line);
[[nodiscard]] nlohmann::ordered_json history_rows_json(
    const std::vector<record::HistoryLine>& lines);
[[nodiscard]] nlohmann::ordered_json unreadable_rows_json(
    const std::vector<record::UnreadableLine>& lines);

}  // namespace screen
