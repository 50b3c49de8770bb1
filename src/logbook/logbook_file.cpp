#include "logbook/logbook_file.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "logbook/beside_file.h"
#include "logbook/connection.h"
#include "logbook/draft_file.h"
#include "logbook/folder_named.h"
#include "logbook/foreign_schema.h"
#include "logbook/guarded.h"
#include "logbook/kept_copy.h"
#include "logbook/leftover_log.h"
#include "logbook/logbook_error.h"
#include "logbook/own_functions.h"
#include "logbook/schema.h"
#include "logbook/soundness.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

int newest_version() { return schema_steps().back().version; }

// A logbook as it was named, for messages, and the file behind all links: what SQLite keeps beside
// it lies there.
struct File {
  std::string named;
  std::string real;

  [[nodiscard]] bool is_writable() const { return ::access(real.c_str(), W_OK) == 0; }
  [[nodiscard]] bool has_log() const {
    std::error_code missing;
    const auto left_in_log = fs::file_size(real + "-wal", missing);
    return !missing && left_in_log > 0;
  }
  // Whether the file as it lies there is all that counts: nothing is beside it, and nobody is in
  // the midst of writing.
  [[nodiscard]] bool is_alone() const { return !has_log() && !has_journal(real); }
};

File file_named(const std::string& path) {
  std::error_code problem;
  const auto status = fs::status(path, problem);
  if (status.type() == fs::file_type::not_found) {
    throw LogbookError(Kind::NotFound, fmt::format("there is no logbook {}", path));
  }
  if (fs::is_directory(status)) {
    throw LogbookError(Kind::NotALogbook, fmt::format("{} is a folder, not a logbook", path));
  }
  // What cannot be looked at is left for opening it to tell.
  if (status.type() != fs::file_type::none && !fs::is_regular_file(status)) {
    throw LogbookError(Kind::NotALogbook, fmt::format("{} is no file; a logbook is one", path));
  }
  const auto real = fs::canonical(path, problem);
  return {path, problem ? fs::absolute(path).string() : real.string()};
}

// Reads the marks in the file's header; refuses what is no logbook of a version known here.
void check_marks(SQLite::Database& database, const std::string& path) {
  const Patience patience(database, kForTheSchema);
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

// Before its pages are known to be sound.
bool is_small(SQLite::Database& database) {
  const Patience patience(database, kForTheSchema);
  return is_checked_whole(database);
}

void check_is_ours(SQLite::Database& database, const std::string& path) {
  check_marks(database, path);
  {
    const Patience patience(database, kForTheSchema);
    check_schema(database, path);
  }
  // What is brought up to date is read as a whole, so that it has to be whole.
  if (is_small(database) || schema_version(database) < newest_version()) {
    check_structure(database, path);
  }
}

using Check = void (*)(SQLite::Database& database, const std::string& path);

// Reading the header is what first touches the file, so it decides whether the file can be read.
// A logbook in a folder that cannot be written (a locked stick, a full disk) can still be read,
// where no writer has left anything beside it: then nothing changes under us.
std::unique_ptr<SQLite::Database> open_checked(const File& file, int flags, bool for_reading,
                                               Waiting& waiting, Check check = check_is_ours) {
  check_beside(file.real, file.named);
  check_leftovers(file.real, file.named);
  const bool only_read = for_reading && !file.is_writable();
  constexpr int kMostTries = 100;
  for (int tries = 1;; ++tries) {
    auto database =
        only_read ? connect_making_nothing(file.real, waiting) : connect(file.real, flags, waiting);
    try {
      check(*database, file.named);
      return database;
    } catch (const SQLite::Exception& error) {
      const int code = error.getErrorCode();
      const bool unwritable =
          code == SQLITE_CANTOPEN || code == SQLITE_READONLY || code == SQLITE_IOERR;
      if (!unwritable || !for_reading || ::access(file.real.c_str(), R_OK) != 0) throw;
      if (file.is_alone()) break;
      // A writer came just now, and its log was not there yet or is there no more.
      if (!only_read || tries == kMostTries) throw;
    }
  }
  auto database = connect_unchanging(file.real);
  check(*database, file.named);
  return database;
}

// A commit is on the disk when it returns, in the write-ahead log. A copy that was put back has
// none and gets one; where it cannot (no shared memory on that disk), the way that it has must not
// forget that a commit was through either, which EXTRA sees to.
void set_for_writing(SQLite::Database& database, Waiting& waiting) {
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA synchronous = EXTRA");
  waiting.retry(database,
                [&] { (void)database.execAndGet("PRAGMA journal_mode = WAL").getString(); });
}

// Before it is opened: the library would open it to be read, and leave as much beside it.
void check_may_be_written(const File& file) {
  if (file.is_writable()) return;
  throw LogbookError(Kind::Unreachable,
                     fmt::format("{} may not be written ({}); check its permissions; nothing was "
                                 "written",
                                 file.named, why_not_written(errno)));
}

// Each of two names of one file would have a write-ahead log of its own, and lines in the one are
// not there for the other.
void check_has_one_name(const File& file) {
  const auto names = [&] {
    struct stat status {};
    return ::stat(file.real.c_str(), &status) == 0 ? status.st_nlink : nlink_t{1};
  };
  if (names() <= 1) return;
  remove_stale_drafts(fs::path(file.real).parent_path());
  if (names() <= 1) return;
  throw LogbookError(
      Kind::Unreachable,
      fmt::format("{} has a second name (a hard link); whoever opens it by that one does not see "
                  "what is being written here, so nothing was written; remove the other name, or "
                  "make a copy of the file and go on with that",
                  file.named));
}

// One upgrade at a time: whoever comes meanwhile waits for the first and finds it done.
void bring_up_to_date(const File& file, Waiting& waiting) {
  const auto database = connect(file.real, SQLite::OPEN_READWRITE, waiting);
  set_for_writing(*database, waiting);
  SQLite::Transaction alone(*database, SQLite::TransactionBehavior::IMMEDIATE);
  const int version = schema_version(*database);
  if (version >= newest_version()) return;
  (void)KeptCopy(file.real, waiting).publish(fmt::format("schema-{}", version));
  apply_steps(*database, schema_steps());
  alone.commit();
}

std::unique_ptr<SQLite::Database> open(const File& file, int flags, bool for_reading,
                                       Waiting& waiting) {
  return guarded(file.named, [&] {
    auto database = open_checked(file, flags, for_reading, waiting);
    if (schema_version(*database) == newest_version()) return database;
    if (for_reading) return brought_up_to_date(*database);
    database.reset();
    bring_up_to_date(file, waiting);
    return open_checked(file, flags, for_reading, waiting);
  });
}

int flags_to_read(const File& file) {
  // Opened for writing where the file allows it, and then forbidden to: only such a connection
  // tidies its log files away when it closes, so that the one file is again all there is to copy.
  return file.is_writable() ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY;
}

}  // namespace

std::unique_ptr<SQLite::Database> brought_up_to_date(SQLite::Database& earlier) {
  auto database = connect_in_memory();
  copy_pages(*database, earlier);
  apply_steps(*database, schema_steps());
  return database;
}

std::unique_ptr<SQLite::Database> open_to_read(const std::string& path, Waiting& waiting) {
  const auto file = file_named(path);
  auto database = open(file, flags_to_read(file), true, waiting);
  guarded(path, [&] { database->exec("PRAGMA query_only = ON"); });
  return database;
}

std::unique_ptr<SQLite::Database> open_to_try(const std::string& path, Waiting& waiting) {
  const auto database = open_to_read(path, waiting);
  return guarded(path, [&] {
    auto copy = brought_up_to_date(*database);
    set_for_writing(*copy, waiting);
    return copy;
  });
}

ToVerify open_to_verify(const std::string& path, Waiting& waiting) {
  const auto file = file_named(path);
  auto database = open_checked(file, flags_to_read(file), true, waiting, check_marks);
  database->exec("PRAGMA query_only = ON");
  {
    const Patience patience(*database, kForTheSchema);
    (void)database->execAndGet("SELECT count(*) FROM sqlite_schema");
  }
  auto patience = std::make_unique<Patience>(*database, steps_to_verify(*database));
  return {std::move(database), std::move(patience)};
}

std::unique_ptr<SQLite::Database> open_unchanged(const std::string& path, Waiting& waiting) {
  const auto file = file_named(path);
  return guarded(path, [&] {
    check_beside(file.real, file.named);
    check_leftovers(file.real, file.named);
    // What a writer has left beside it belongs to the file; without that nobody writes.
    auto database = file.is_alone() ? connect_unchanging(file.real)
                                    : connect(file.real, SQLite::OPEN_READONLY, waiting);
    check_is_ours(*database, path);
    if (schema_version(*database) < newest_version()) database = brought_up_to_date(*database);
    database->exec("PRAGMA query_only = ON");
    return database;
  });
}

std::unique_ptr<SQLite::Database> open_to_write(const std::string& path, Waiting& waiting) {
  const auto file = file_named(path);
  check_has_one_name(file);
  check_may_be_written(file);
  auto database = open(file, SQLite::OPEN_READWRITE, false, waiting);
  return guarded(path, [&] {
    check_whole_schema(*database, path);
    set_for_writing(*database, waiting);
    return std::move(database);
  });
}

bool is_ready_to_write(const std::string& path, Waiting& waiting) {
  const auto file = file_named(path);
  if (!file.is_writable()) return false;
  const auto database = open_checked(file, SQLite::OPEN_READWRITE, true, waiting, check_marks);
  return schema_version(*database) == newest_version() &&
         database->execAndGet("PRAGMA journal_mode").getString() == "wal";
}

void create_file(const std::string& path, const std::function<void(SQLite::Database&)>& fill,
                 std::optional<int> version) {
  std::error_code problem;
  if (fs::exists(fs::symlink_status(path, problem))) {
    throw LogbookError(
        Kind::Exists,
        fmt::format("{} is there already and was left as it is; choose another name", path));
  }
  check_new_name(path);
  const DraftFile draft(folder_or_refuse(fs::absolute(path).parent_path()));
  try {
    {
      SQLite::Database database(draft.path().string(), SQLite::OPEN_READWRITE);
      database.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
      database.exec("PRAGMA foreign_keys = ON");
      add_own_functions(database);
      make_tables(database, version.value_or(newest_version()));
      fill(database);
      apply_steps(database, schema_steps());
      database.exec("PRAGMA journal_mode = WAL");
    }
    if (!draft.publish_as(fs::absolute(path))) {
      throw LogbookError(Kind::Exists, path + " is there already");
    }
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

}  // namespace logbook
