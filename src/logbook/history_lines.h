#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "record/content.h"
#include "record/history_line.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

struct RowFilter;
class Soundness;

// What the history of all lines, that in parts and that of one joint have in common.

// Marks those of the lines that are struck; neither the first line nor a strike ever is.
void mark_struck(SQLite::Database& database, std::vector<record::UnreadableLine>& unreadable);

// Takes those that were struck out of the lines that cannot be read, and tells how many they were.
std::size_t take_out_struck(SQLite::Database& database,
                            std::vector<record::UnreadableLine>& unreadable);

// Puts a strike to the line that it struck: the first strikes it, one of another copy strikes it
// again.
void add_strike(record::HistoryLine& line, record::Entry<record::Strike> strike);

// Marks those of the lines, all of which were looked at, that are struck and not what was written.
void mark_altered(Soundness& soundness, std::vector<record::HistoryLine>& lines);

// The line with this id among those that are in the order of their ids; nothing where none is.
[[nodiscard]] record::HistoryLine* line_with(std::vector<record::HistoryLine>& lines,
                                             std::string_view id);

// Puts their strikes to the lines of a part of the logbook, which are in the order of their ids.
// Strikes that cannot be read are put where the filter says.
void add_strikes_of(SQLite::Database& database, const RowFilter& part,
                    std::vector<record::HistoryLine>& lines);

// LogbookError (Damaged) where there is any: its number, the value and how to go on.
void refuse_if_any(const std::string& path, std::vector<record::UnreadableLine> unreadable,
                   Soundness& soundness);

}  // namespace logbook
