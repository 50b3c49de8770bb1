#include "logbook/logbook_error.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/resource.h>

#include <cerrno>
#include <cstring>

#include "logbook/lock_holder.h"

namespace logbook {
namespace {

std::string holder_of(const std::string& path) {
  const auto holder = lock_holder(path);
  return holder.empty() ? "another program" : holder;
}

// The kind of error alone: what is copied page by page tells more in the higher bits.
int primary(const SQLite::Exception& error) { return error.getErrorCode() & 0xFF; }

}  // namespace

std::string limit_on_files() {
  rlimit limit{};
  if (::getrlimit(RLIMIT_FSIZE, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY) return {};
  return fmt::format("; no file may grow beyond {} KiB here (ulimit -f)", limit.rlim_cur / 1024);
}

std::string why_not_written(int reason) {
  return std::strerror(reason) + (reason == EFBIG ? limit_on_files() : std::string());
}

LogbookError translated(const SQLite::Exception& error, const std::string& path) {
  using Kind = LogbookError::Kind;
  if (error.getExtendedErrorCode() == SQLITE_READONLY_ROLLBACK) {
    return {Kind::Unreachable,
            fmt::format("{0} was left in the midst of a line by a program that was killed, and {0}"
                        "-journal puts that right once it is opened where it may be written: "
                        "boltwitness status --log {0}",
                        path)};
  }
  switch (primary(error)) {
    case SQLITE_NOTADB:
      return {Kind::NotALogbook,
              fmt::format("{} is not a boltwitness logbook; choose another file with --log", path)};
    case SQLITE_CORRUPT:
      return {Kind::Damaged,
              fmt::format("{} is damaged ({}); go back to a copy", path, error.what())};
    case SQLITE_INTERRUPT:
      return {Kind::Damaged,
              fmt::format("{} is damaged: reading it comes to no end; go back to a copy", path)};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Kind::Busy, fmt::format("{} is held by {}; try again when that one has finished",
                                      path, holder_of(path))};
    case SQLITE_FULL:
      return {Kind::Full,
              fmt::format("no room left on the disk of {}; what was there before is safe; "
                          "make room and try again{}",
                          path, limit_on_files())};
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_IOERR:
      return {Kind::Unreachable,
              fmt::format("{} could not be opened or written ({}); check the folder, its "
                          "permissions and the room on the disk{}",
                          path, error.what(), limit_on_files())};
    default:
      return {
          Kind::Damaged,
          fmt::format("{}: {}; \"boltwitness verify\" tells whether the file is damaged; then go "
                      "back to a copy",
                      path, error.what())};
  }
}

bool is_trouble_with_the_disk(const SQLite::Exception& error) {
  switch (primary(error)) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_FULL:
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_IOERR:
    case SQLITE_NOMEM:
      return true;
    default:
      return false;
  }
}

void throw_not_written(const SQLite::Exception& error, const std::string& path) {
  if (primary(error) == SQLITE_CONSTRAINT) {
    throw failure::InputError(fmt::format(
        "the logbook refuses this ({}), so it was not written; check the values", error.what()));
  }
  const auto reason = translated(error, path);
  throw LogbookError(reason.kind(), fmt::format("{}; this was not written", reason.what()));
}

}  // namespace logbook
