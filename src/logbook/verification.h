#pragma once

#include <string>

#include "logbook/waiting.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Recomputes and compares everything, changing nothing; an earlier schema is held against the steps
// up to it. `sought` is a hash or the beginning of one, in lower case, to be looked for among the
// lines. LogbookError where the file is no logbook, is of a later schema or cannot be opened.
[[nodiscard]] record::Verification verify(const std::string& path, const std::string& sought = "",
                                          Waiting& waiting = Waiting::silent());

// The same of a logbook that is open, inside the transaction that is.
[[nodiscard]] record::Verification verify_open(SQLite::Database& database,
                                               const std::string& sought = "");

}  // namespace logbook
