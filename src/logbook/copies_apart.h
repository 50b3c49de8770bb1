#pragma once

#include "record/apart.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Which lines were written while copies that have been merged were apart, from what each line names
// as before it (hash_chain.h), and what was struck meanwhile. Takes no time where nothing was ever
// merged, else that of the lines written while copies were apart.
// LogbookError (Damaged) where a thousand copies are said to have been apart at one time.
[[nodiscard]] record::Apart read_apart(SQLite::Database& database);

}  // namespace logbook
