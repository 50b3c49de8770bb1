#include "logbook/logbook_file.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "logbook/schema.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

constexpr int kBusyMilliseconds = 5000;

int newest_version() { return schema_steps().back().version; }

// Reads the marks in the file's header; refuses what is no logbook of a version known here.
void check_is_ours(SQLite::Database& database, const std::string& path) {
  if (database.execAndGet("PRAGMA application_id").getInt() != kApplicationId) {
    throw LogbookError(
        Kind::NotALogbook,
        fmt::format("{} is not a boltwitness logbook; choose another file with --log", path));
  }
  if (const int version = schema_version(database); version > newest_version()) {
    throw LogbookError(
        Kind::NewerSchema,
        fmt::format("{} was written by a later version of boltwitness (its schema is "
                    "{}, this program knows up to {}); update the program",
                    path, version, newest_version()));
  }
}

void check_is_there(const std::string& path) {
  std::error_code problem;
  if (!fs::exists(path, problem)) {
    throw LogbookError(Kind::NotFound, fmt::format("there is no logbook {}", path));
  }
  if (fs::is_directory(path, problem)) {
    throw LogbookError(Kind::NotALogbook, fmt::format("{} is a folder, not a logbook", path));
  }
}

// A logbook in a folder that cannot be written (a locked stick, a full disk) can still be read,
// where no writer has left anything in a write-ahead log beside it: then nothing changes under us.
std::unique_ptr<SQLite::Database> open_unchanging(const std::string& path) {
  std::string escaped;
  for (const char c : fs::absolute(path).string()) {
    if (c == '?' || c == '#' || c == '%') {
      escaped += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      escaped += c;
    }
  }
  return std::make_unique<SQLite::Database>("file:" + escaped + "?immutable=1",
                                            SQLite::OPEN_READONLY | SQLite::OPEN_URI);
}

// Reading the header is what first touches the file, so it decides whether the file can be read.
std::unique_ptr<SQLite::Database> open_checked(const std::string& path, int flags,
                                               bool for_reading) {
  auto database = std::make_unique<SQLite::Database>(path, flags, kBusyMilliseconds);
  try {
    check_is_ours(*database, path);
  } catch (const SQLite::Exception& error) {
    const int code = error.getErrorCode();
    const bool unwritable =
        code == SQLITE_CANTOPEN || code == SQLITE_READONLY || code == SQLITE_IOERR;
    std::error_code missing;
    const auto left_in_log = fs::file_size(path + "-wal", missing);
    if (!unwritable || !for_reading || ::access(path.c_str(), R_OK) != 0 ||
        (!missing && left_in_log > 0)) {
      throw;
    }
    database = open_unchanging(path);
    check_is_ours(*database, path);
  }
  return database;
}

void set_for_writing(SQLite::Database& database) {
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA synchronous = FULL");
}

// Copies the file beside itself before its schema changes.
void bring_up_to_date(const std::string& path, int version) {
  const std::string copy = fmt::format("{}.schema-{}", path, version);
  SQLite::Database database(path, SQLite::OPEN_READWRITE, kBusyMilliseconds);
  set_for_writing(database);
  database.backup(copy.c_str(), SQLite::Database::BackupType::Save);
  apply_steps(database, schema_steps());
}

// A logbook of an earlier version as this one would have it, in memory: reading changes no file.
std::unique_ptr<SQLite::Database> brought_up_to_date(SQLite::Database& earlier) {
  auto database = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE);
  SQLite::Backup(*database, earlier).executeStep();
  apply_steps(*database, schema_steps());
  return database;
}

std::unique_ptr<SQLite::Database> open(const std::string& path, int flags, bool for_reading) {
  check_is_there(path);
  try {
    auto database = open_checked(path, flags, for_reading);
    const int version = schema_version(*database);
    if (version == newest_version()) return database;
    if (for_reading) return brought_up_to_date(*database);
    database.reset();
    bring_up_to_date(path, version);
    return open_checked(path, flags, for_reading);
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

// What a rename has to be followed by, so that a power cut does not undo it.
void sync_folder(const fs::path& folder) {
  const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  ::fsync(handle);
  ::close(handle);
}

}  // namespace

std::unique_ptr<SQLite::Database> open_to_read(const std::string& path) {
  // Opened for writing where the file allows it, and then forbidden to: only such a connection
  // tidies its log files away when it closes, so that the one file is again all there is to copy.
  const bool may_write = ::access(path.c_str(), W_OK) == 0;
  auto database = open(path, may_write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY, true);
  database->exec("PRAGMA query_only = ON");
  return database;
}

std::unique_ptr<SQLite::Database> open_unchanged(const std::string& path) {
  check_is_there(path);
  try {
    // What a writer has left in a write-ahead log belongs to the file; without one nobody writes.
    std::error_code missing;
    const auto left_in_log = fs::file_size(path + "-wal", missing);
    auto database =
        !missing && left_in_log > 0
            ? std::make_unique<SQLite::Database>(path, SQLite::OPEN_READONLY, kBusyMilliseconds)
            : open_unchanging(path);
    check_is_ours(*database, path);
    if (schema_version(*database) < newest_version()) {
      auto copy = std::make_unique<SQLite::Database>(":memory:",
                                                     SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
      SQLite::Backup(*copy, *database).executeStep();
      apply_steps(*copy, schema_steps());
      database = std::move(copy);
    }
    database->exec("PRAGMA query_only = ON");
    return database;
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

std::unique_ptr<SQLite::Database> open_to_write(const std::string& path) {
  auto database = open(path, SQLite::OPEN_READWRITE, false);
  set_for_writing(*database);
  return database;
}

void create_file(const std::string& path, const std::function<void(SQLite::Database&)>& fill) {
  std::error_code problem;
  if (fs::exists(fs::symlink_status(path, problem))) {
    throw LogbookError(
        Kind::Exists,
        fmt::format("{} is there already and was left as it is; choose another name", path));
  }
  const fs::path folder = fs::absolute(path).parent_path();
  if (!fs::is_directory(folder, problem)) {
    throw LogbookError(Kind::Unreachable,
                       fmt::format("there is no folder {}; make it first", folder.string()));
  }
  const DraftFile draft(folder);
  try {
    {
      SQLite::Database database(draft.path().string(), SQLite::OPEN_READWRITE, kBusyMilliseconds);
      database.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
      set_for_writing(database);
      apply_steps(database, schema_steps());
      fill(database);
      database.exec("PRAGMA journal_mode = WAL");
    }
    // A link, unlike a rename, never replaces a file that appeared meanwhile.
    if (::link(draft.path().c_str(), path.c_str()) != 0) {
      const int reason = errno;
      if (reason == EEXIST) throw LogbookError(Kind::Exists, path + " is there already");
      // Some memory sticks know no links; there the gap between look and rename is accepted.
      fs::rename(draft.path(), path);
    }
    sync_folder(folder);
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  } catch (const fs::filesystem_error& error) {
    throw LogbookError(Kind::Unreachable,
                       fmt::format("{} could not be made: {}", path, error.code().message()));
  }
}

}  // namespace logbook
