#include "logbook/connection.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "logbook/waiting.h"

namespace logbook {
namespace {

void harden(SQLite::Database& database) {
  // The longest text of a line is a layout of ten thousand points.
  constexpr int kLongestText = 4'000'000;
  auto* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, kLongestText);
  database.exec("PRAGMA cell_size_check = ON");
}

}  // namespace

std::unique_ptr<SQLite::Database> connect(const std::string& file, int flags, Waiting& waiting) {
  auto database = std::make_unique<SQLite::Database>(file, flags);
  waiting.wait_in(*database);
  harden(*database);
  return database;
}

std::unique_ptr<SQLite::Database> connect_in_memory() {
  auto database =
      std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  harden(*database);
  return database;
}

std::unique_ptr<SQLite::Database> connect_unchanging(const std::string& file) {
  std::string escaped;
  for (const char c : file) {
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

void copy_pages(SQLite::Database& to, SQLite::Database& from) {
  SQLite::Backup copying(to, from);
  if (const int result = copying.executeStep(); result != SQLITE_DONE) {
    throw SQLite::Exception("another program holds it", result);
  }
}

}  // namespace logbook
