#include "logbook/failed_checks.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sqlite3.h>

#include <memory>

#include "logbook/connection.h"
#include "logbook/rows/cells.h"
#include "logbook/rows/content_tables.h"
#include "logbook/schema.h"

namespace logbook {
namespace {

bool is_without_checks(SQLite::Database& database) {
  return sqlite3_db_readonly(database.getHandle(), "main") == 1;
}

// The tables of that version, of which no trigger keeps anything out.
std::unique_ptr<SQLite::Database> empty_twin(int version) {
  auto twin = connect_in_memory();
  make_tables(*twin, version);
  twin->exec("PRAGMA foreign_keys = OFF");
  sqlite3_db_config(twin->getHandle(), SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
  return twin;
}

std::vector<std::string> names_in(SQLite::Database& database, const std::string& sql) {
  SQLite::Statement row(database, sql);
  std::vector<std::string> names;
  while (row.executeStep()) names.push_back(row.getColumn(0).getString());
  return names;
}

class RowsTriedOut {
 public:
  RowsTriedOut(SQLite::Database& database, SQLite::Database& twin, const std::string& table)
      : columns_(names_in(
            twin, fmt::format("SELECT name FROM pragma_table_info('{}') ORDER BY cid", table))),
        from_(database, fmt::format("SELECT {} FROM {}", listed(), quoted_name(table))),
        into_(twin, fmt::format("INSERT INTO {} ({}) VALUES ({})", quoted_name(table), listed(),
                                fmt::join(std::vector<const char*>(columns_.size(), "?"), ", "))),
        empty_(twin, fmt::format("DELETE FROM {}", quoted_name(table))) {}

  // How many rows fail a CHECK, at most so many.
  std::size_t failing(std::size_t most) {
    constexpr int kAtATime = 1000;
    std::size_t failing = 0;
    for (int held = 0; failing < most && from_.executeStep(); ++held) {
      if (held == kAtATime) held = empty();
      if (is_next_failing()) ++failing;
    }
    empty();
    return failing;
  }

 private:
  [[nodiscard]] std::string listed() const {
    std::vector<std::string> quoted;
    for (const auto& column : columns_) quoted.push_back(quoted_name(column));
    return fmt::format("{}", fmt::join(quoted, ", "));
  }

  int empty() {
    empty_.reset();
    empty_.exec();
    return 0;
  }

  // What else than a CHECK refuses a row integrity_check tells.
  bool is_next_failing() {
    (void)into_.tryReset();  // which says once more why the row before was refused
    for (int i = 0; i < from_.getColumnCount(); ++i) {
      bind_as_it_is(into_, i + 1, from_.getColumn(i));
    }
    try {
      into_.exec();
      return false;
    } catch (const SQLite::Exception& error) {
      if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
      return error.getExtendedErrorCode() == SQLITE_CONSTRAINT_CHECK;
    }
  }

  std::vector<std::string> columns_;
  SQLite::Statement from_;
  SQLite::Statement into_;
  SQLite::Statement empty_;
};

}  // namespace

std::vector<std::string> failed_checks(SQLite::Database& database, std::size_t most) {
  std::vector<std::string> failed;
  if (!is_without_checks(database)) return failed;
  const auto twin = empty_twin(schema_version(database));
  const SQLite::Transaction never_kept(*twin);
  for (const auto& table : names_in(*twin, R"(
           SELECT name FROM sqlite_schema
           WHERE type = 'table' AND sql LIKE '%CHECK%' AND name <> 'photograph_bytes'
           ORDER BY name)")) {
    const auto failing = RowsTriedOut(database, *twin, table).failing(most - failed.size());
    failed.insert(failed.end(), failing, fmt::format("CHECK constraint failed in {}", table));
  }
  return failed;
}

}  // namespace logbook
