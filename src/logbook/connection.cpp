#include "logbook/connection.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <optional>
#include <utility>

#include "logbook/logless_vfs.h"
#include "logbook/own_functions.h"
#include "logbook/waiting.h"
#include "record/photograph.h"

namespace logbook {
namespace {

// Each connection is used by one thread alone (the phone's server opens one for each request), so
// that none has to lock it: a tenth of all that is done with a file.

void harden(SQLite::Database& database) {
  // The longest row is that of a photograph; the longest text, a layout of ten thousand points, is
  // shorter.
  constexpr int kLongestRow = static_cast<int>(record::kMostPhotographBytes) + 4096;
  constexpr std::pair<int, int> kLimits[] = {
      {SQLITE_LIMIT_LENGTH, kLongestRow}, {SQLITE_LIMIT_COLUMN, 100},
      {SQLITE_LIMIT_COMPOUND_SELECT, 10}, {SQLITE_LIMIT_ATTACHED, 0},
      {SQLITE_LIMIT_TRIGGER_DEPTH, 10},   {SQLITE_LIMIT_WORKER_THREADS, 0}};
  auto* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  for (const auto& [limit, most] : kLimits) sqlite3_limit(handle, limit, most);
  database.exec("PRAGMA cell_size_check = ON");
  add_own_functions(database);
}

// The file as a URI with this parameter.
std::string uri_of(const std::string& file, const char* parameter) {
  std::string escaped;
  for (const char c : file) {
    if (c == '?' || c == '#' || c == '%') {
      escaped += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      escaped += c;
    }
  }
  return fmt::format("file:{}?{}", escaped, parameter);
}

constexpr int kReadUri = SQLITE_OPEN_READONLY | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX;

}  // namespace

std::unique_ptr<SQLite::Database> connect(const std::string& file, int flags, Waiting& waiting) {
  auto database = std::make_unique<SQLite::Database>(file, flags | SQLite::OPEN_NOMUTEX);
  waiting.wait_in(*database);
  harden(*database);
  return database;
}

std::unique_ptr<SQLite::Database> connect_making_nothing(const std::string& file,
                                                         Waiting& waiting) {
  auto database = std::make_unique<SQLite::Database>(uri_of(file, "readonly_shm=1"), kReadUri, 0,
                                                     logless_vfs());
  waiting.wait_in(*database);
  harden(*database);
  return database;
}

std::unique_ptr<SQLite::Database> connect_in_memory() {
  auto database = std::make_unique<SQLite::Database>(
      ":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOMUTEX);
  harden(*database);
  return database;
}

std::unique_ptr<SQLite::Database> connect_unchanging(const std::string& file) {
  auto database = std::make_unique<SQLite::Database>(uri_of(file, "immutable=1"), kReadUri);
  harden(*database);
  return database;
}

void copy_pages(SQLite::Database& to, SQLite::Database& from, const LinesProgress& progress) {
  constexpr int kAll = -1;
  constexpr int kAtOnce = 64;  // pages: 256 KiB
  // A writer between two parts would have it begin again.
  std::optional<SQLite::Transaction> as_it_stands;
  if (progress.begin) {
    as_it_stands.emplace(from, SQLite::TransactionBehavior::DEFERRED);
    (void)from.execAndGet("SELECT count(*) FROM sqlite_schema");
  }
  SQLite::Backup copying(to, from);
  bool is_begun = false;
  for (;;) {
    const int result = copying.executeStep(progress.begin ? kAtOnce : kAll);
    if (result == SQLITE_DONE) return;
    if (result != SQLITE_OK) throw SQLite::Exception("another program holds it", result);
    if (!is_begun) progress.begin(static_cast<std::size_t>(copying.getTotalPageCount() / kAtOnce));
    is_begun = true;
    progress.step();
  }
}

}  // namespace logbook
