#include "logbook/schema.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <map>

#include "logbook/logbook_error.h"
#include "support/catch.h"

namespace schema_test {

using logbook::SchemaStep;

TEST_CASE("the embedded steps rise by one from 1", "[logbook]") {
  int expected = 1;
  for (const auto& step : logbook::schema_steps()) CHECK(step.version == expected++);
  CHECK(expected > 1);
}

TEST_CASE("a step and its number come together or not at all", "[logbook]") {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec("PRAGMA foreign_keys = ON");
  const SchemaStep first{1, "CREATE TABLE a (id INTEGER PRIMARY KEY);"};
  logbook::apply_steps(database, {first});
  CHECK(logbook::schema_version(database) == 1);

  SECTION("a step already there is not applied again") {
    logbook::apply_steps(database, {first, {2, "CREATE TABLE b (a REFERENCES a (id));"}});
    CHECK(logbook::schema_version(database) == 2);
    CHECK(database.tableExists("b"));
  }
  SECTION("a step that fails half way leaves nothing") {
    CHECK_THROWS_AS(
        logbook::apply_steps(database, {first, {2, "CREATE TABLE b (x); CREATE TABLE a (x);"}}),
        SQLite::Exception);
    CHECK(logbook::schema_version(database) == 1);
    CHECK_FALSE(database.tableExists("b"));
  }
  SECTION("a step that leaves rows pointing nowhere is undone") {
    const SchemaStep orphans{2,
                             "CREATE TABLE b (a INTEGER REFERENCES a (id) "
                             "DEFERRABLE INITIALLY DEFERRED);"
                             "INSERT INTO b VALUES (7);"};
    CHECK_THROWS_AS(logbook::apply_steps(database, {first, orphans}), logbook::LogbookError);
    CHECK(logbook::schema_version(database) == 1);
    CHECK_FALSE(database.tableExists("b"));
  }
}

TEST_CASE("current.sql is what the steps add up to", "[logbook]") {
  const auto everything = [](SQLite::Database& database) {
    std::map<std::string, std::string> made;
    SQLite::Statement row(database,
                          "SELECT type || ' ' || name, sql FROM sqlite_master "
                          "WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite%'");
    while (row.executeStep()) made[row.getColumn(0).getString()] = row.getColumn(1).getString();
    SQLite::Statement kind(database, "SELECT kind, meaning FROM entry_kind");
    while (kind.executeStep()) made[kind.getColumn(0).getString()] = kind.getColumn(1).getString();
    made["version"] = std::to_string(logbook::schema_version(database));
    return made;
  };
  SQLite::Database by_steps(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  logbook::apply_steps(by_steps, logbook::schema_steps());

  SQLite::Database in_one_piece(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  in_one_piece.exec(std::string(logbook::current_schema()));

  INFO("written anew by scripts/write_current_schema");
  CHECK(everything(in_one_piece) == everything(by_steps));
}

}  // namespace schema_test
