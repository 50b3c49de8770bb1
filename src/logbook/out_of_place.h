#pragma once

#include <string_view>
#include <vector>

#include "record/unreadable_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Of the year 10000: behind such an id no line could be written any more
// (schema/0013_line_hashes.sql).
inline constexpr std::string_view kFirstIdTooLate = "e677d21f";

// Lines that no program of ours puts where they stand, whatever their hashes say: a first line that
// is not the first, which is one too many, and ids of a year that is none. By rising number.
[[nodiscard]] std::vector<record::UnreadableLine> lines_out_of_place(SQLite::Database& database);

}  // namespace logbook
