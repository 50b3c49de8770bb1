#include "logbook/leftover_log.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <system_error>

#include "logbook/connection.h"
#include "logbook/containment.h"
#include "logbook/logbook_error.h"
#include "logbook/schema.h"
#include "logbook/verification.h"
#include "logbook/waiting.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

// A log holds lines only behind its own header.
bool has_leftover(const std::string& file) {
  constexpr std::uintmax_t kHeaderBytes = 32;
  std::error_code missing;
  const auto size = fs::file_size(file + "-wal", missing);
  return !missing && size > kHeaderBytes;
}

// Sound as a logbook, whoever signed it and whether its lines have hashes yet or not.
bool is_sound(SQLite::Database& database) {
  try {
    if (database.execAndGet("PRAGMA application_id").getInt() != kApplicationId) return false;
    if (schema_version(database) > schema_steps().back().version) return false;
    const SQLite::Transaction moment(database);
    return verify_open(database).is_as_written();
  } catch (const SQLite::Exception& error) {
    if (is_trouble_with_the_disk(error)) throw;
    return false;
  } catch (const LogbookError&) {
    return false;
  }
}

// The file with what the log adds to it. Whoever else had it open would keep us from holding it
// alone: nothing then, for the log is at work. What cannot be written is looked at all the same.
std::unique_ptr<SQLite::Database> with_log(const std::string& file) {
  const bool writable = ::access(file.c_str(), W_OK) == 0;
  auto whole = connect(file, writable ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY,
                       Waiting::not_at_all());
  // Closing it plays nothing into the file.
  sqlite3_db_config(whole->getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  if (writable) whole->exec("PRAGMA locking_mode = EXCLUSIVE");
  try {
    (void)schema_version(*whole);
  } catch (const SQLite::Exception& error) {
    const int code = error.getErrorCode();
    if (code == SQLITE_NOTADB || code == SQLITE_CORRUPT) return whole;
    return nullptr;
  }
  return whole;
}

// What the log would do to a sound file; nothing where it belongs to it.
std::optional<std::string> harm_of(SQLite::Database& alone, SQLite::Database& whole) {
  if (!is_sound(whole)) return "played into it, the logbook would not fit any more";
  switch (containment_of(alone, whole)) {
    case Containment::Contained:
      return std::nullopt;
    case Containment::Different:
      return "played into it, lines of the file would be lost";
    case Containment::Other:
      break;
  }
  return "it is of another logbook";
}

}  // namespace

void check_leftover_log(const std::string& file, const std::string& named) {
  if (!has_leftover(file)) return;
  std::optional<std::string> harm;
  try {
    const auto whole = with_log(file);
    if (!whole) return;
    const auto alone = connect_unchanging(file);
    // A program that was killed while it moved lines from the log into the file leaves it half
    // done; the log then makes it whole.
    if (!is_sound(*alone)) return;
    harm = harm_of(*alone, *whole);
  } catch (const SQLite::Exception&) {
    return;  // opening it tells why
  }
  if (!harm) return;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("beside {0} lies {0}-wal, left by a program that was killed, and it does not "
                  "belong to this file: {1}; nothing was changed; where the file is a copy that "
                  "was put back, move {0}-wal and {0}-shm into another folder and try again",
                  named, *harm));
}

}  // namespace logbook
