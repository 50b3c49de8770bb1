#include "logbook/lasting_commit.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <string_view>

#include "logbook/logbook_error.h"

namespace logbook {
namespace {

bool has_moved(SQLite::Database& database) {
  int moved = 0;
  return sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) ==
             SQLITE_OK &&
         moved != 0;
}

[[noreturn]] void refuse_moved(const std::string& path, std::string_view what_is_written) {
  throw LogbookError(
      LogbookError::Kind::Unreachable,
      fmt::format("{} was moved, removed or replaced by another program while it was open; {}",
                  path, what_is_written));
}

// What a disk was given and did not make sure of may come back when the file is opened next: the
// write-ahead log holds it whole, and nobody can take it out of there without writing once more.
void commit_or_tell(SQLite::Transaction& transaction, const std::string& path) {
  try {
    transaction.commit();
  } catch (const SQLite::Exception& error) {
    if (error.getExtendedErrorCode() != SQLITE_IOERR_FSYNC) throw;
    throw LogbookError(
        LogbookError::Kind::InDoubt,
        fmt::format(
            "{} was written to, and the disk did not make sure of it ({}): whether this is "
            "kept nobody knows yet; look to the disk, then with \"boltwitness history\" (for "
            "a signature, \"boltwitness verify\") before it is done again",
            path, error.what()));
  }
}

}  // namespace

void commit_for_good(SQLite::Database& database, SQLite::Transaction& transaction,
                     const std::string& path) {
  if (has_moved(database)) refuse_moved(path, "nothing was written");
  commit_or_tell(transaction, path);
  // What cannot be moved now stays in the log, where it is as safe, and is moved later.
  (void)sqlite3_wal_checkpoint_v2(database.getHandle(), nullptr, SQLITE_CHECKPOINT_PASSIVE, nullptr,
                                  nullptr);
  if (has_moved(database)) {
    refuse_moved(path,
                 "what was entered went into the file that was moved; look for it there before you "
                 "enter it again");
  }
}

}  // namespace logbook
