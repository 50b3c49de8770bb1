#pragma once

#include <functional>
#include <string>
#include <vector>

#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Recomputes the hash of every line, and whether all that a line names as before it is there and
// before it (hash_chain.h). `sought` are hashes or the beginnings of some, in lower case.
// `line_checked` is called after each line.
[[nodiscard]] record::ChainCheck check_chain(SQLite::Database& database,
                                             const std::vector<std::string>& sought = {},
                                             const std::function<void()>& line_checked = {});

}  // namespace logbook
