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

// At all that was written and what holds it together, or at what each line says besides, as every
// command reads it.
enum class Look { AtHashes, AtLinesToo };

// Recomputes, compares and reads everything, changing nothing; an earlier schema is held against
// the steps up to it, and its lines are read as this version would have them. `sought` are hashes
// or the beginnings of some, in lower case, to be looked for among the lines. LogbookError where
// the file is no logbook, is of a later schema or cannot be opened.
[[nodiscard]] record::Verification verify(const std::string& path,
                                          const std::vector<std::string>& sought = {},
                                          Waiting& waiting = Waiting::silent(),
                                          const LinesProgress& progress = {},
                                          Look look = Look::AtLinesToo);

// The same of a logbook that is open, inside the transaction that is. `line_checked` is called
// after each line whose hash was recomputed, and once more after each that was read.
[[nodiscard]] record::Verification verify_open(SQLite::Database& database, Look look,
                                               const std::vector<std::string>& sought = {},
                                               const std::function<void()>& line_checked = {});

}  // namespace logbook
