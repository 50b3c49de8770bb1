#pragma once

#include <string>

namespace SQLite {
class Database;
class Transaction;
}  // namespace SQLite

namespace logbook {

// Commits what was written, so that a power cut takes nothing of it once this has returned, and
// moves it from the write-ahead log into the file itself as far as no reader is in the way: a copy
// of the file by hand then lacks nothing that was acknowledged. LogbookError where the file was
// moved, removed or replaced while it was open, which says whether anything was written, and where
// the disk did not make sure of what it was given, so that nobody knows; SQLite::Exception where it
// could not be written.
void commit_for_good(SQLite::Database& database, SQLite::Transaction& transaction,
                     const std::string& path);

}  // namespace logbook
