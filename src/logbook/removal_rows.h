#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/entry.h"
#include "record/removal.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Removal& removal);

// Current entries in the order of their ids; only those of one joint where it is given.
[[nodiscard]] std::vector<record::Entry<record::Removal>> read_removals(
    SQLite::Database& database, std::optional<std::string_view> joint = std::nullopt);

}  // namespace logbook
