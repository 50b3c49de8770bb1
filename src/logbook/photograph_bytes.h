#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/photograph.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// The bytes of photographs, which stand in a table of their own under their SHA-256. Whoever shows
// a photograph reads them here; nothing else does.

// Keeps these bytes, inside the transaction that is open, where they are not there already; tells
// their SHA-256.
std::string keep_photograph_bytes(SQLite::Database& database, std::string_view bytes);

// The bytes with this SHA-256, as they were kept; nothing where there are none, or others.
[[nodiscard]] std::optional<std::string> photograph_bytes(SQLite::Database& database,
                                                          const std::string& sha256);

// The SHA-256 of every photograph whose bytes are there, rising.
[[nodiscard]] std::vector<std::string> kept_photographs(SQLite::Database& database);

// How many bytes the photographs come to that the lines name, without a look at them.
[[nodiscard]] std::int64_t photograph_bytes_named(SQLite::Database& database);

// What of the photographs is not what their lines say, by rising SHA-256; each is read once.
[[nodiscard]] std::vector<record::PhotographMisfit> check_photographs(SQLite::Database& database);

}  // namespace logbook
