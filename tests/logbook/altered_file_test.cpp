// Files that were altered: bytes of their pages, values of their columns, characters of a JSON
// copy. Every command answers with 0 to 3; none crashes and none is a fault of the program's own.
// The number of files is that of the environment's BOLTWITNESS_ALTERED_FILES, for a run under the
// sanitizers.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>

#include "logbook/hash_chain.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace altered_file_test {

namespace {

namespace fs = std::filesystem;

int files_to_alter() {
  constexpr int kUsually = 100;
  const char* asked = std::getenv("BOLTWITNESS_ALTERED_FILES");
  return asked == nullptr ? kUsually : std::max(1, std::atoi(asked));
}

// The sample job as one file, of which each round alters a copy.
class Altering {
 public:
  Altering() {
    run_sample_job(trial);
    const auto path = trial.environment["BOLTWITNESS_LOG"];
    {
      SQLite::Database shell(path, SQLite::OPEN_READWRITE);
      shell.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    }
    original = content_of(path);
    trial.environment["BOLTWITNESS_LOG"] = altered;
  }

  int number(int below) { return std::uniform_int_distribution<int>(0, below - 1)(random); }
  template <class Value>
  const Value& one_of(const std::vector<Value>& values) {
    return values[static_cast<std::size_t>(number(static_cast<int>(values.size())))];
  }

  void write(const std::string& path, const std::string& bytes) {
    for (const char* tail : {"-wal", "-shm", "-journal"}) fs::remove(path + tail);
    std::ofstream(path, std::ios::binary) << bytes;
  }

  // All lines, and three commands of the rest, of which the last ones write.
  void try_commands(const std::string& what) {
    const std::vector<std::string> others = {"audit",
                                             "sequence",
                                             "compare --json",
                                             "show J06 --json",
                                             "show J06/3",
                                             "search cap",
                                             "export --to " + scratch,
                                             "recheck",
                                             "renew",
                                             "fluid",
                                             "item",
                                             "hold-point",
                                             "report --to " + scratch,
                                             "labels --to " + scratch,
                                             "sheet --to " + scratch,
                                             "tighten",
                                             "found J06/1 --next",
                                             "strike 9 --why 'a trial'",
                                             "out J06/1",
                                             "found J06/1 60s 70o --wrench TW2",
                                             "stripe J06/1 --wiped",
                                             "fluid water --drained 1l"};
    try_command("history", what);
    for (int i = 0; i < 3; ++i) try_command(one_of(others), what);
  }

  // What export writes, import takes.
  void try_copy(const std::string& what) {
    const auto copy = trial.folder().file("exported.json");
    fs::remove(copy);
    if (trial.run("export --to " + copy).code != 0) return;
    const auto taken =
        trial.run("import " + copy + " --check --log " + trial.folder().file("new.bolts"));
    INFO(what << ": " << taken.err);
    CHECK(taken.code == 0);
    ++copied;
  }

  void try_command(const std::string& command, const std::string& what) {
    const auto answer = trial.run(command);
    if (answer.code >= 0 && answer.code <= 3) {
      ++answers[static_cast<std::size_t>(answer.code)];
      return;
    }
    INFO(what << ": " << command << "\n" << answer.err);
    CHECK(answer.code <= 3);
  }

  Trial trial;
  std::mt19937 random{20260601};
  std::string original;
  std::string altered = trial.folder().file("altered.bolts");
  std::string scratch = trial.folder().file("scratch");
  std::array<int, 4> answers = {};
  int copied = 0;
};

// Any value of the four that a column can hold.
std::string some_value(Altering& altering) {
  return altering.one_of<std::string>({"-1",
                                       "0",
                                       "1",
                                       "2147483648",
                                       "-9223372036854775808",
                                       "9223372036854775807",
                                       "1e308",
                                       "-1e308",
                                       "9e999",
                                       "-9e999",
                                       "1e-320",
                                       "0.5",
                                       "NULL",
                                       "''",
                                       "'x'",
                                       "'J06'",
                                       "'circle'",
                                       "'rectangle 5000x5000'",
                                       "'80 N·m'",
                                       "'+90°; +90°'",
                                       "char(27) || '[2J'",
                                       "x'ff00fe'",
                                       "CAST(x'ff' AS TEXT)",
                                       "'100000000000000000 running h'",
                                       "'0000-00-00'",
                                       "'9999-12-31T23:59:59.999Z'",
                                       "printf('%.100000c', 'a')",
                                       "'00000000-0000-7000-8000-000000000000'"});
}

}  // namespace

TEST_CASE("no flipped byte of a logbook crashes a command", "[logbook][slow]") {
  Altering altering;
  for (int file = 0; file < files_to_alter(); ++file) {
    auto bytes = altering.original;
    const int flips = 1 + altering.number(20);
    const bool in_one_place = altering.number(2) == 0;
    const int place = altering.number(static_cast<int>(bytes.size()));
    for (int i = 0; i < flips; ++i) {
      const auto at =
          in_one_place
              ? (static_cast<std::size_t>(place) + static_cast<std::size_t>(i)) % bytes.size()
              : static_cast<std::size_t>(altering.number(static_cast<int>(bytes.size())));
      bytes[at] = static_cast<char>(altering.number(256));
    }
    altering.write(altering.altered, bytes);
    altering.try_commands(fmt::format("file {} of flipped bytes", file));
    altering.try_copy(fmt::format("file {} of flipped bytes", file));
  }
  CHECK(altering.answers[3] > 0);
  CHECK(altering.answers[0] > 0);
}

TEST_CASE("no altered value in a logbook crashes a command", "[logbook][slow]") {
  Altering altering;
  for (int file = 0; file < files_to_alter(); ++file) {
    altering.write(altering.altered, altering.original);
    std::string what;
    {
      SQLite::Database shell(altering.altered, SQLite::OPEN_READWRITE);
      std::vector<std::string> triggers;
      std::vector<std::string> names;
      SQLite::Statement trigger(shell,
                                "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
      while (trigger.executeStep()) {
        names.push_back(trigger.getColumn(0).getString());
        triggers.push_back(trigger.getColumn(1).getString());
      }
      trigger.reset();
      shell.exec("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF");
      SQLite::Transaction altered(shell);  // each trigger for itself would take most of the time
      for (const auto& name : names) shell.exec("DROP TRIGGER " + name);
      std::vector<std::pair<std::string, std::string>> columns;
      SQLite::Statement column(shell, R"(
          SELECT t.name, c.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
          WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' AND t.name <> 'entry_kind'
          ORDER BY 1, 2)");
      while (column.executeStep()) {
        columns.emplace_back(column.getColumn(0).getString(), column.getColumn(1).getString());
      }
      column.reset();
      for (int i = 0, n = 1 + altering.number(3); i < n;) {
        const auto& [table, name] = altering.one_of(columns);
        const auto value = some_value(altering);
        try {
          // A value of another type than its column's is refused by the table itself.
          shell.exec(fmt::format(
              "UPDATE {0} SET {1} = {2} WHERE {3} IN (SELECT {3} FROM {0} LIMIT {4} OFFSET {5})",
              table, name, value, table == "entry" ? "id" : "entry_id", 1 + altering.number(3),
              altering.number(5)));
          what += fmt::format("{}.{} = {}; ", table, name, value);
          ++i;
        } catch (const SQLite::Exception&) {
          continue;
        }
      }
      // Half of them with hashes that fit, as a forger leaves them.
      if (altering.number(2) == 0) {
        what += "hashed again";
        shell.exec("DELETE FROM line_hash");
        logbook::chain_all_lines(shell);
      }
      for (const auto& text : triggers) shell.exec(text);
      altered.commit();
    }
    altering.try_commands(what);
    altering.try_copy(what);
  }
  CHECK(altering.answers[3] > 0);
  CHECK(altering.answers[0] > 0);
}

namespace {

// SQL that gives a line this id, in its own row and in those of what it says.
std::string named_anew(SQLite::Database& shell, std::int64_t line, const std::string& id) {
  std::string sql;
  SQLite::Statement table(shell, R"(
      SELECT t.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND c.name = 'entry_id')");
  while (table.executeStep()) {
    sql += fmt::format(
        "UPDATE {} SET entry_id = {} WHERE entry_id = (SELECT id FROM entry WHERE line = {});",
        table.getColumn(0).getString(), id, line);
  }
  return sql + fmt::format("UPDATE entry SET id = {} WHERE line = {};", id, line);
}

// SQL that writes a line once more, with all that it says or without.
std::string doubled(SQLite::Database& shell, std::int64_t line, std::int64_t as, bool is_whole) {
  const std::string id = fmt::format("'0fffffff-ffff-7fff-bfff-{:012x}'", as + 1'000'000);
  auto sql = fmt::format(
      "INSERT INTO entry SELECT {0}, {1}, kind, by_whom, done_at, entered_at, device FROM entry "
      "WHERE line = {2};",
      as, id, line);
  if (!is_whole) return sql;
  SQLite::Statement table(shell, R"(
      SELECT t.name, (SELECT group_concat(name) FROM pragma_table_info(t.name)
                      WHERE name <> 'entry_id')
      FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND c.name = 'entry_id' AND t.name <> 'line_hash')");
  while (table.executeStep()) {
    const auto name = table.getColumn(0).getString();
    const auto others = table.getColumn(1).getString();
    sql += fmt::format(
        "INSERT INTO {0} (entry_id, {1}) SELECT {2}, {1} FROM {0} WHERE entry_id = (SELECT id FROM "
        "entry WHERE line = {3});",
        name, others, id, line);
  }
  return sql;
}

// What is done to whole lines; the SQL of one such change.
std::string some_change(Altering& altering, SQLite::Database& shell) {
  // Numbers that were made absurd before are none to count on from.
  const auto last = shell.execAndGet("SELECT max(line) FROM entry WHERE line < 1000000").getInt64();
  const std::int64_t line =
      1 + altering.number(static_cast<int>(std::min<std::int64_t>(last, 300)));
  const std::int64_t other =
      1 + altering.number(static_cast<int>(std::min<std::int64_t>(last, 300)));
  switch (altering.number(6)) {
    case 0:
      return doubled(shell, line, last + 1, true);
    case 1:
      return doubled(shell, line, last + 1, false);
    case 2:  // number and id of two lines are exchanged
      return fmt::format(
          "UPDATE entry SET line = -1 WHERE line = {0}; UPDATE entry SET line = {0} WHERE line = "
          "{1}; UPDATE entry SET line = {1} WHERE line = -1;",
          line, other);
    case 3:
      return fmt::format("UPDATE entry SET line = {} WHERE line = {};",
                         altering.one_of<std::string>({"-9223372036854775808", "-7", "0", "2000",
                                                       "9007199254740993", "9223372036854775807"}),
                         line);
    case 4:
      return named_anew(
          shell, line,
          altering.one_of<std::string>(
              {"'00000000-0000-7000-8000-000000000000'", "'ffffffff-ffff-7fff-bfff-ffffffffffff'",
               "'FFFFFFFF-FFFF-7FFF-BFFF-FFFFFFFFFFFF'", "'01890a5d-ac96-4774-bcce-b302099a8057'",
               "'xxxxxxxx-xxxx-7xxx-8xxx-xxxxxxxxxxxx'", "''", "'x'"}));
    default:
      return fmt::format(
          "UPDATE entry SET kind = (SELECT kind FROM entry WHERE line = {}) WHERE "
          "line = {};",
          other, line);
  }
}

}  // namespace

TEST_CASE("no line that was added, numbered or named anew crashes a command", "[logbook][slow]") {
  Altering altering;
  int given = 0;  // that export refused to give out, as files that cannot be read
  for (int file = 0; file < files_to_alter(); ++file) {
    altering.write(altering.altered, altering.original);
    std::string sql;
    const int changes = 1 + altering.number(2);
    for (int i = 0; i < changes; ++i) {
      {
        SQLite::Database shell(altering.altered, SQLite::OPEN_READWRITE);
        sql = some_change(altering, shell);
      }
      // What the file itself cannot hold, two lines of one number, leaves it as it was.
      try {
        forge(altering.altered, "SAVEPOINT whole; " + sql + "RELEASE whole");
      } catch (const SQLite::Exception&) {
        altering.write(altering.altered, altering.original);
      }
    }
    altering.try_commands(sql);
    fs::remove(altering.scratch);
    const auto code = altering.trial.run("export --to " + altering.scratch).code;
    INFO(sql);
    CHECK((code == 0 || code == 3));
    given += code == 3 ? 1 : 0;
    altering.try_copy(sql);
  }
  CHECK(given > 0);
  CHECK(altering.copied > 0);
}

TEST_CASE("no altered copy crashes the import, and what it takes can be read", "[logbook][slow]") {
  Altering altering;
  altering.write(altering.altered, altering.original);
  const auto copy = altering.trial.folder().file("copy.json");
  altering.trial.done("export --to " + copy);
  const auto json = content_of(copy);
  const auto made = altering.trial.folder().file("made.bolts");
  const std::vector<std::string> values = {"-1",
                                           "0",
                                           "1e999",
                                           "\"\"",
                                           "null",
                                           "true",
                                           "[]",
                                           "{}",
                                           "1e308",
                                           "\"x\"",
                                           "-0.0",
                                           "99999999999",
                                           "\"\\u001b[2J\"",
                                           "\"9999-12-31T23:59:59.999Z\""};
  int taken = 0;
  for (int file = 0; file < files_to_alter(); ++file) {
    auto text = json;
    for (int i = 0, n = 1 + altering.number(3); i < n; ++i) {
      const auto at = static_cast<std::size_t>(altering.number(static_cast<int>(text.size())));
      if (altering.number(4) == 0) {
        text[at] = static_cast<char>(altering.number(256));
        continue;
      }
      // A whole value between a colon and what follows it.
      const auto colon = text.find(':', at);
      if (colon == std::string::npos) continue;
      const auto end = text.find_first_of(",}]", colon);
      if (end == std::string::npos) continue;
      text.replace(colon + 1, end - colon - 1, altering.one_of(values));
    }
    altering.write(copy, text);
    for (const char* tail : {"", "-wal", "-shm"}) fs::remove(made + tail);
    const auto answer = altering.trial.run("import " + copy + " --log " + made);
    INFO("copy " << file << ": " << answer.err);
    CHECK((answer.code == 0 || answer.code == 2 || answer.code == 1));
    if (answer.code != 0) continue;
    ++taken;
    CHECK(altering.trial.run("history --log " + made).code == 0);
    CHECK(altering.trial.run("audit --log " + made).code <= 1);
  }
  INFO(taken << " of them were taken");
  CHECK(taken < files_to_alter());
}

TEST_CASE("a JSON nested without end is refused", "[logbook]") {
  Altering altering;
  const auto deep = altering.trial.folder().file("deep.json");
  for (const char* bracket : {"[", "{\"a\":"}) {
    std::string text;
    for (int i = 0; i < 60'000; ++i) text += bracket;
    altering.write(deep, text);
    const auto refused = altering.trial.run("import " + deep + " --log " +
                                            altering.trial.folder().file("new.bolts"));
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("nested"));
  }
}

}  // namespace altered_file_test
