#pragma once

#include <optional>
#include <string>

#include "record/entry.h"

namespace SQLite {
class Statement;
}

namespace logbook {

// The columns of current_entry (as `e`) that make a stamp; they come first in every SELECT.
inline constexpr const char* kStampColumns =
    "e.line, e.id, e.by_whom, e.done_at, e.entered_at, e.device";
inline constexpr int kFirstContentColumn = 6;

[[nodiscard]] record::Stamp stamp_of(SQLite::Statement& row);

// True where the row is of the same entry, without reading the whole stamp: entries of many rows
// are read a million rows at a time.
[[nodiscard]] bool is_of(SQLite::Statement& row, const record::Stamp& stamp);

// Columns counted from the first one after the stamp.
[[nodiscard]] std::string text_at(SQLite::Statement& row, int column);
[[nodiscard]] double number_at(SQLite::Statement& row, int column);
[[nodiscard]] int integer_at(SQLite::Statement& row, int column);
[[nodiscard]] bool is_null_at(SQLite::Statement& row, int column);

}  // namespace logbook
