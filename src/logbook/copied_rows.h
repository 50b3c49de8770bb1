#pragma once

#include "record/logbook_copy.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Every line with all its rows, inside the transaction that is open.
[[nodiscard]] record::LogbookCopy read_copy(SQLite::Database& database);

// Writes the lines of the copy as they are into a database of the same schema version, inside the
// transaction that is open. InputError, saying at which place of the copy, for a table or column
// that the schema does not have, one that is missing, a value of another type, and whatever the
// schema itself refuses.
void insert_copy(SQLite::Database& database, const record::LogbookCopy& copy);

}  // namespace logbook
