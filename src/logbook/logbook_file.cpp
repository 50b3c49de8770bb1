#include "logbook/logbook_file.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdint>
#include <filesystem>
#include <system_error>

#include "logbook/draft_file.h"
#include "logbook/foreign_schema.h"
#include "logbook/guarded.h"
#include "logbook/logbook_error.h"
#include "logbook/schema.h"
#include "logbook/soundness.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

constexpr int kBusyMilliseconds = 5000;

int newest_version() { return schema_steps().back().version; }

// A file may come from anywhere: nothing in its schema runs with more than our own rights, no page
// is trusted to be whole, and no text is longer than any that a line holds (the longest is a layout
// of ten thousand points).
void harden(SQLite::Database& database) {
  constexpr int kLongestText = 4'000'000;
  constexpr std::pair<int, int> kLimits[] = {
      {SQLITE_LIMIT_LENGTH, kLongestText}, {SQLITE_LIMIT_COLUMN, 100},
      {SQLITE_LIMIT_COMPOUND_SELECT, 10},  {SQLITE_LIMIT_ATTACHED, 0},
      {SQLITE_LIMIT_TRIGGER_DEPTH, 10},    {SQLITE_LIMIT_WORKER_THREADS, 0}};
  auto* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  for (const auto& [limit, most] : kLimits) sqlite3_limit(handle, limit, most);
  database.exec("PRAGMA cell_size_check = ON");
}

// Gives up (SQLITE_INTERRUPT) what takes more than so many thousand steps of the library: pages can
// be made to lead to each other without end.
class Patience {
 public:
  Patience(SQLite::Database& database, std::int64_t thousands)
      : handle_(database.getHandle()), left_(thousands) {
    constexpr int kStepsAtATime = 1000;
    sqlite3_progress_handler(handle_, kStepsAtATime, is_at_its_end, this);
  }
  ~Patience() { sqlite3_progress_handler(handle_, 0, nullptr, nullptr); }
  Patience(const Patience&) = delete;
  Patience& operator=(const Patience&) = delete;

 private:
  static int is_at_its_end(void* self) { return --static_cast<Patience*>(self)->left_ < 0 ? 1 : 0; }

  sqlite3* handle_;
  std::int64_t left_;
};

// The first look at a file, of which nothing is known yet: reading its schema takes some thousand
// steps.
constexpr std::int64_t kForTheSchema = 2000;

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

void check_is_ours(SQLite::Database& database, const std::string& path) {
  check_marks(database, path);
  {
    const Patience patience(database, kForTheSchema);
    check_schema(database, path);
  }
  // What is brought up to date is read as a whole, so that it has to be whole.
  if (is_checked_whole(database) || schema_version(database) < newest_version()) {
    check_structure(database, path);
  }
}

using Check = void (*)(SQLite::Database& database, const std::string& path);

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
  auto database = std::make_unique<SQLite::Database>("file:" + escaped + "?immutable=1",
                                                     SQLite::OPEN_READONLY | SQLite::OPEN_URI);
  harden(*database);
  return database;
}

// Reading the header is what first touches the file, so it decides whether the file can be read.
std::unique_ptr<SQLite::Database> open_checked(const std::string& path, int flags, bool for_reading,
                                               Check check = check_is_ours) {
  auto database = std::make_unique<SQLite::Database>(path, flags, kBusyMilliseconds);
  harden(*database);
  try {
    check(*database, path);
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
    check(*database, path);
  }
  return database;
}

// All of a file is looked at once, whatever its pages say: no sound one takes as many steps as it
// has bytes.
void be_patient_to_verify(SQLite::Database& database) {
  constexpr int kStepsAtATime = 1000;
  constexpr std::int64_t kAtLeast = 20'000;
  constexpr std::int64_t kBytesATime = 100;
  thread_local std::int64_t left = 0;  // of the file opened last, which is the one looked at
  left = kAtLeast + database.execAndGet("PRAGMA page_count").getInt64() *
                        database.execAndGet("PRAGMA page_size").getInt64() / kBytesATime;
  sqlite3_progress_handler(
      database.getHandle(), kStepsAtATime,
      [](void* steps) { return --*static_cast<std::int64_t*>(steps) < 0 ? 1 : 0; }, &left);
}

void set_for_writing(SQLite::Database& database) {
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA synchronous = FULL");
}

// Copies the file beside itself under a name that is free, with the permissions that it has, as
// another connection sees it that writes nothing.
void keep_copy(const std::string& path, int version) {
  struct stat status {};
  const unsigned mode = ::stat(path.c_str(), &status) == 0 ? status.st_mode & 07777U : 0600U;
  const DraftFile draft(fs::absolute(path).parent_path(), mode & 0600U);
  {
    SQLite::Database earlier(path, SQLite::OPEN_READONLY, kBusyMilliseconds);
    SQLite::Database copy(draft.path().string(), SQLite::OPEN_READWRITE, kBusyMilliseconds);
    SQLite::Backup(copy, earlier).executeStep();
  }
  draft.set_mode(mode);
  const auto name = fmt::format("{}.schema-{}", fs::absolute(path).string(), version);
  for (int number = 2;
       !draft.publish_as(number == 2 ? name : fmt::format("{}-{}", name, number - 1)); ++number) {
  }
}

// One upgrade at a time: whoever comes meanwhile waits for the first and finds it done.
void bring_up_to_date(const std::string& path) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE, kBusyMilliseconds);
  harden(database);
  set_for_writing(database);
  SQLite::Transaction alone(database, SQLite::TransactionBehavior::IMMEDIATE);
  const int version = schema_version(database);
  if (version >= newest_version()) return;
  keep_copy(path, version);
  apply_steps(database, schema_steps());
  alone.commit();
}

// A logbook of an earlier version as this one would have it, in memory: reading changes no file.
std::unique_ptr<SQLite::Database> brought_up_to_date(SQLite::Database& earlier) {
  auto database =
      std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  harden(*database);
  SQLite::Backup(*database, earlier).executeStep();
  apply_steps(*database, schema_steps());
  return database;
}

std::unique_ptr<SQLite::Database> open(const std::string& path, int flags, bool for_reading) {
  check_is_there(path);
  try {
    auto database = open_checked(path, flags, for_reading);
    if (schema_version(*database) == newest_version()) return database;
    if (for_reading) return brought_up_to_date(*database);
    database.reset();
    bring_up_to_date(path);
    return open_checked(path, flags, for_reading);
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

}  // namespace

std::unique_ptr<SQLite::Database> open_to_read(const std::string& path) {
  // Opened for writing where the file allows it, and then forbidden to: only such a connection
  // tidies its log files away when it closes, so that the one file is again all there is to copy.
  const bool may_write = ::access(path.c_str(), W_OK) == 0;
  auto database = open(path, may_write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY, true);
  guarded(path, [&] { database->exec("PRAGMA query_only = ON"); });
  return database;
}

std::unique_ptr<SQLite::Database> open_to_verify(const std::string& path) {
  check_is_there(path);
  const bool may_write = ::access(path.c_str(), W_OK) == 0;
  auto database = open_checked(path, may_write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY,
                               true, check_marks);
  database->exec("PRAGMA query_only = ON");
  {
    const Patience patience(*database, kForTheSchema);
    (void)database->execAndGet("SELECT count(*) FROM sqlite_schema");
  }
  be_patient_to_verify(*database);
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
    harden(*database);
    check_is_ours(*database, path);
    if (schema_version(*database) < newest_version()) database = brought_up_to_date(*database);
    database->exec("PRAGMA query_only = ON");
    return database;
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

std::unique_ptr<SQLite::Database> open_to_write(const std::string& path) {
  auto database = open(path, SQLite::OPEN_READWRITE, false);
  return guarded(path, [&] {
    check_whole_schema(*database, path);
    set_for_writing(*database);
    return std::move(database);
  });
}

void create_file(const std::string& path, const std::function<void(SQLite::Database&)>& fill,
                 std::optional<int> version) {
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
