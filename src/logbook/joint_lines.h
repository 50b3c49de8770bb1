#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/history_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

class Soundness;

// Of a large logbook what a question asks for and nothing else, each line that is read held against
// its hash (soundness.h).

// See Logbook::history_of.
[[nodiscard]] std::vector<record::HistoryLine> lines_of_joint(SQLite::Database& database,
                                                              Soundness& soundness,
                                                              const std::string& path,
                                                              std::string_view joint);

// See Logbook::wrench_used_last.
[[nodiscard]] std::string wrench_used_last(SQLite::Database& database, Soundness& soundness);

}  // namespace logbook
