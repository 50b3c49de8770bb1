#include "logbook/logbook_error.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/format.h>
#include <sqlite3.h>

namespace logbook {

LogbookError translated(const SQLite::Exception& error, const std::string& path) {
  using Kind = LogbookError::Kind;
  switch (error.getErrorCode()) {
    case SQLITE_NOTADB:
      return {Kind::NotALogbook,
              fmt::format("{} is not a boltwitness logbook; choose another file with --log", path)};
    case SQLITE_CORRUPT:
      return {Kind::Damaged,
              fmt::format("{} is damaged ({}); nothing was written; go back to a copy", path,
                          error.what())};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Kind::Busy,
              fmt::format("{} is held by another program; nothing was written; try again when that "
                          "one has finished",
                          path)};
    case SQLITE_FULL:
      return {Kind::Full,
              fmt::format("no room left on the disk of {}; nothing was written, what was there "
                          "before is safe; make room and enter it again",
                          path)};
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_IOERR:
      return {Kind::Unreachable,
              fmt::format("{} could not be opened or written ({}); nothing was written; check the "
                          "folder, its permissions and the room on the disk",
                          path, error.what())};
    default:
      return {Kind::Damaged, fmt::format("{}: {}; nothing was written", path, error.what())};
  }
}

}  // namespace logbook
