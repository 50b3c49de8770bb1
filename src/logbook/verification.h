#pragma once

#include <functional>
#include <string>
#include <vector>

#include "logbook/lines_progress.h"
#include "logbook/waiting.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Recomputes and compares everything, changing nothing; an earlier schema is held against the steps
// up to it. `sought` are hashes or the beginnings of some, in lower case, to be looked for among
// the lines. LogbookError where the file is no logbook, is of a later schema or cannot be opened.
[[nodiscard]] record::Verification verify(const std::string& path,
                                          const std::vector<std::string>& sought = {},
                                          Waiting& waiting = Waiting::silent(),
                                          const LinesProgress& progress = {});

// The same of a logbook that is open, inside the transaction that is. `line_checked` is called
// after each line.
[[nodiscard]] record::Verification verify_open(SQLite::Database& database,
                                               const std::vector<std::string>& sought = {},
                                               const std::function<void()>& line_checked = {});

}  // namespace logbook
