#pragma once

#include <memory>
#include <string>

#include "logbook/lines_progress.h"

namespace SQLite {
class Database;
}

namespace logbook {

class Waiting;

// How the library opens a file; every path here is from the root of the disk, so that none is taken
// for a URI or for a database in memory. Each throws what the library throws.

// A file may come from anywhere: nothing in its schema runs with more than our own rights, no page
// is trusted to be whole, and no text is longer than any that a line holds. Triggers may call our
// own functions (own_functions.h).
[[nodiscard]] std::unique_ptr<SQLite::Database> connect(const std::string& file, int flags,
                                                        Waiting& waiting);

// For who may read the file and not write it: neither a write-ahead log nor its index (`-shm`) is
// made beside it, for nobody else could write to those. The library's "cannot open" where it would
// take one that is not there.
[[nodiscard]] std::unique_ptr<SQLite::Database> connect_making_nothing(const std::string& file,
                                                                       Waiting& waiting);

// A database in memory alone.
[[nodiscard]] std::unique_ptr<SQLite::Database> connect_in_memory();

// The one file as it lies there, with no regard to a write-ahead log or to other programs: right
// only while nobody writes.
[[nodiscard]] std::unique_ptr<SQLite::Database> connect_unchanging(const std::string& file);

// Copies all of one database into another, in place of what that holds. SQLite::Exception (busy)
// where another program did not let go of it. Where somebody is told how far it has come, it goes
// in parts; `from` is then read as it stood when it began, whoever writes to it meanwhile.
void copy_pages(SQLite::Database& to, SQLite::Database& from, const LinesProgress& progress = {});

}  // namespace logbook
