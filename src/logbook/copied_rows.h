#pragma once

#include <functional>

#include "record/logbook_copy.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Hands over every line with all its rows, inside the transaction that is open. The ids rise with
// the numbers of the lines, which their hashes were held to. `line_taken` is called after each.
void read_copy(SQLite::Database& database, record::CopyTaker& taker,
               const std::function<void()>& line_taken = {});

// Writes the lines of the copy as they are into a database of the same schema version, inside the
// transaction that is open. InputError, saying at which place of the copy, for a table or column
// that the schema does not have, one that is missing, a value of another type, and whatever the
// schema itself refuses.
// `line_written` is called after each line, with it.
void insert_copy(SQLite::Database& database, const record::CopySource& copy,
                 const std::function<void(const record::StoredLine& line)>& line_written);

}  // namespace logbook
