// How SQLite is told to open a file that may come from anybody, looked at on the connection itself
// and by what it refuses.

#include "logbook/connection.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <functional>

#include "logbook/waiting.h"
#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/temporary_folder.h"
#include "support/trial.h"

namespace connection_test {

namespace {

int configured(SQLite::Database& database, int what) {
  int is_on = -1;
  sqlite3_db_config(database.getHandle(), what, -1, &is_on);
  return is_on;
}

int limit(SQLite::Database& database, int what) {
  return sqlite3_limit(database.getHandle(), what, -1);
}

// A file as another tool left it: a view and a trigger that call a function which is not said to
// be harmless.
void make_file(const std::string& path) {
  SQLite::Database shell(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  shell.exec(
      "CREATE TABLE t (a); INSERT INTO t VALUES (1); CREATE VIEW called AS SELECT acts(a) FROM t;"
      "CREATE TRIGGER act AFTER INSERT ON t BEGIN SELECT acts(new.a); END;");
}

using Connect = std::function<std::unique_ptr<SQLite::Database>(const std::string& path)>;

const std::vector<std::pair<std::string, Connect>> kConnections = {
    {"connect",
     [](const std::string& path) {
       return logbook::connect(path, SQLite::OPEN_READWRITE, logbook::Waiting::silent());
     }},
    {"connect_in_memory",
     [](const std::string& path) {
       auto memory = logbook::connect_in_memory();
       SQLite::Database file(path, SQLite::OPEN_READONLY);
       logbook::copy_pages(*memory, file);
       return memory;
     }},
    {"connect_unchanging",
     [](const std::string& path) { return logbook::connect_unchanging(path); }},
};

}  // namespace

TEST_CASE("every connection is defensive, trusts no schema and has its limits", "[logbook]") {
  const TemporaryFolder folder;
  make_file(folder.file("f.db"));
  for (const auto& [name, connect] : kConnections) {
    INFO(name);
    const auto open = connect(folder.file("f.db"));
    auto& database = *open;
    CHECK(configured(database, SQLITE_DBCONFIG_DEFENSIVE) == 1);
    CHECK(configured(database, SQLITE_DBCONFIG_TRUSTED_SCHEMA) == 0);
    CHECK(database.execAndGet("PRAGMA trusted_schema").getInt() == 0);
    CHECK(database.execAndGet("PRAGMA cell_size_check").getInt() == 1);
    CHECK(limit(database, SQLITE_LIMIT_LENGTH) == 8 * 1024 * 1024 + 4096);
    CHECK(limit(database, SQLITE_LIMIT_COLUMN) == 100);
    CHECK(limit(database, SQLITE_LIMIT_COMPOUND_SELECT) == 10);
    CHECK(limit(database, SQLITE_LIMIT_ATTACHED) == 0);
    CHECK(limit(database, SQLITE_LIMIT_TRIGGER_DEPTH) == 10);
    CHECK(limit(database, SQLITE_LIMIT_WORKER_THREADS) == 0);

    // A function of an application is called by a statement of ours and by nothing in the file.
    int calls = 0;
    sqlite3_create_function(
        database.getHandle(), "acts", 1, SQLITE_UTF8, &calls,
        [](sqlite3_context* context, int, sqlite3_value**) {
          ++*static_cast<int*>(sqlite3_user_data(context));
          sqlite3_result_int(context, 1);
        },
        nullptr, nullptr);
    database.execAndGet("SELECT acts(1)");
    CHECK(calls == 1);
    CHECK_THROWS_WITH(database.execAndGet("SELECT * FROM called"),
                      ContainsSubstring("unsafe use of acts()"));
    CHECK_THROWS_WITH(database.exec("INSERT INTO t VALUES (2)"),
                      ContainsSubstring("unsafe use of acts()"));
    CHECK(calls == 1);

    CHECK_THROWS_WITH(
        database.exec("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = ''"),
        ContainsSubstring("may not be modified"));
    CHECK_THROWS_WITH(database.exec("ATTACH ':memory:' AS other"),
                      ContainsSubstring("too many attached databases"));
    CHECK(database.execAndGet("SELECT length(zeroblob(8392704))").getInt() == 8'392'704);
    CHECK_THROWS_WITH(database.execAndGet("SELECT length(hex(zeroblob(4196353)))"),
                      ContainsSubstring("too big"));
  }
}

TEST_CASE("a cell beyond every photograph is refused and its file named by every command",
          "[logbook]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine GB-1");
  trial.done("joint J06 --holds cap --size M10 --grade 8.8 --count 4");
  trial.done("out J06/1 --note greasy");
  forge(log, "UPDATE removal SET note = printf('%.*c', 8392705, 'a')");
  for (const std::string command :
       {"status", "history", "show J06", "show J06/1", "audit", "search cap", "export",
        "export joints", "report", "out J06/2", "strike 3 --why x", "verify", "backup", "sign"}) {
    const auto refused = trial.run(command);
    INFO(command << ": " << refused.out.substr(0, 500) << refused.err.substr(0, 500));
    CHECK((refused.code == 3 || refused.code == 1));
    CHECK(refused.out.size() + refused.err.size() < 2000);
    CHECK_THAT(refused.told() + refused.said(),
               ContainsSubstring("too big") || ContainsSubstring("\"boltwitness verify\" tells"));
  }
}

}  // namespace connection_test
