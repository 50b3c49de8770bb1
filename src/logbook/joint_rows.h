#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/entry.h"
#include "record/joint.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Joint& joint);

// Current entries in the order of their ids; only those of one code where it is given.
[[nodiscard]] std::vector<record::Entry<record::Joint>> read_joints(
    SQLite::Database& database, std::optional<std::string_view> code = std::nullopt);

}  // namespace logbook
