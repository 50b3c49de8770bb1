#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/entry.h"
#include "record/wrench.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Wrench& wrench);

// Current entries in the order of their ids; only those of one name where it is given.
[[nodiscard]] std::vector<record::Entry<record::Wrench>> read_wrenches(
    SQLite::Database& database, std::optional<std::string_view> name = std::nullopt);

}  // namespace logbook
