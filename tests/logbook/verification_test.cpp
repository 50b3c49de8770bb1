// Whatever is changed in a logbook behind the program is found. The triggers, which would refuse
// it, are out of the way while it is changed.

#include "logbook/verification.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <set>

#include "logbook/canonical_line.h"
#include "logbook/chain_check.h"
#include "logbook/hash_chain.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "support/random_logbook.h"
#include "support/sample_job.h"
#include "support/temporary_folder.h"

namespace verification_test {

namespace {

using record::ChainCheck;
using Fault = ChainCheck::Fault;

// A logbook whose triggers are out of the way.
class Unguarded {
 public:
  explicit Unguarded(const std::string& path) {
    database = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE);
    database->exec("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF");
    for (const auto& name : texts("SELECT name FROM sqlite_schema WHERE type = 'trigger'")) {
      database->exec("DROP TRIGGER " + name);
    }
  }

  std::vector<std::string> texts(const std::string& sql) const {
    SQLite::Statement row(*database, sql);
    std::vector<std::string> found;
    while (row.executeStep()) found.push_back(row.getColumn(0).getString());
    return found;
  }
  [[nodiscard]] int number(const std::string& sql) const {
    return database->execAndGet(sql).getInt();
  }

  // What is found of the lines where this was done; it is undone again.
  ChainCheck after(const std::string& sql) const {
    const SQLite::Transaction undone(*database);
    database->exec(sql);
    return logbook::check_chain(*database);
  }

  std::unique_ptr<SQLite::Database> database;
};

// One with a line in every table: the sample job, a photograph, and a pull of a test under way.
class EveryTable {
 public:
  EveryTable() {
    run_sample_job(trial);
    const auto picture = trial.folder().file("mark.png");
    std::ofstream(picture, std::ios::binary) << plain_png(3, 2, 120);
    trial.done("photo J06/1-2 " + picture);
    const auto path = trial.environment["BOLTWITNESS_LOG"];
    auto open = logbook::Logbook::open_to_write(path);
    logbook::Recording recording(
        open, {"KB", "00000000-0000-4000-8000-000000000001", trial.now, trial.now});
    recording.append(
        record::Pull{"J06", 3, "TW2", quantity::TorqueUnit::NewtonMetre, record::Restart::Stacked,
                     record::read_readings("60 short 6°", std::nullopt).front(), "60 short 6°"});
    recording.commit();
    unguarded = std::make_unique<Unguarded>(path);
  }
  Trial trial;
  std::unique_ptr<Unguarded> unguarded;
};

// One of a few lines, a second apart.
class FewLines {
 public:
  FewLines() {
    const auto path = trial.folder().file("gb1.bolts");
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 9");
    for (int i = 1; i < 9; ++i) trial.done("out J01/" + std::to_string(i) + " --bag A1");
    unguarded = std::make_unique<Unguarded>(path);
  }
  Trial trial;
  std::unique_ptr<Unguarded> unguarded;
};

// An UPDATE of one cell, to the nearest other value of its type.
std::string other_value(SQLite::Database& database, const std::string& table,
                        const std::string& column, const std::string& where) {
  SQLite::Statement cell(database,
                         fmt::format("SELECT \"{}\" FROM {} WHERE {}", column, table, where));
  REQUIRE(cell.executeStep());
  const auto value = cell.getColumn(0);
  std::string other;
  if (value.isNull()) {
    SQLite::Statement type(database, fmt::format("SELECT type FROM pragma_table_info('{}') "
                                                 "WHERE name = '{}'",
                                                 table, column));
    REQUIRE(type.executeStep());
    other = type.getColumn(0).getString() == "TEXT" ? "''" : "0";
  } else if (value.isInteger()) {
    other = fmt::format("{}", value.getInt64() + 7777);  // no other position, pull or flag
  } else if (value.isFloat()) {
    // The number next to it: one bit.
    other = fmt::format("{:.17g}",
                        std::nextafter(value.getDouble(), std::numeric_limits<double>::infinity()));
  } else {
    // One letter more, or the case of one.
    other = value.getString().empty() ? "' '" : fmt::format("\"{}\" || 'x'", column);
  }
  return fmt::format("UPDATE {} SET \"{}\" = {} WHERE {}", table, column, other, where);
}

}  // namespace

TEST_CASE("whatever column of whatever kind of line is changed, the line is named",
          "[logbook][slow]") {
  const EveryTable every;
  const auto& logbook = *every.unguarded;
  std::set<std::string> kinds;
  int cells = 0;
  for (const auto& table : logbook.texts(R"(
           SELECT t.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
           WHERE t.type = 'table' AND c.name = 'entry_id' AND t.name <> 'line_hash')")) {
    INFO(table);
    // The first and the last row of each table.
    for (const auto* end : {"min", "max"}) {
      const auto id = logbook.texts(fmt::format("SELECT {}(entry_id) FROM {}", end, table)).at(0);
      REQUIRE_FALSE(id.empty());  // every table has rows
      const auto line = logbook.number("SELECT line FROM entry WHERE id = '" + id + "'");
      kinds.insert(logbook.texts("SELECT kind FROM entry WHERE id = '" + id + "'").at(0));
      std::vector<std::string> conditions;
      for (const auto& key : logbook.texts("SELECT name FROM pragma_table_info('" + table +
                                           "') WHERE pk > 0 ORDER BY pk")) {
        conditions.push_back(
            fmt::format("\"{0}\" = (SELECT \"{0}\" FROM {1} WHERE entry_id = '{2}' "
                        "ORDER BY 1 LIMIT 1)",
                        key, table, id));
      }
      const auto row = fmt::format("{}", fmt::join(conditions, " AND "));
      for (const auto& column : logbook.texts("SELECT name FROM pragma_table_info('" + table +
                                              "') WHERE name <> 'entry_id'")) {
        INFO(column);
        const auto check = logbook.after(other_value(*logbook.database, table, column, row));
        REQUIRE(check.misfits.size() == 1);
        CHECK(check.misfits.front().fault == Fault::Changed);
        CHECK(check.misfits.front().line == line);
        ++cells;
      }
      // A row more, a row less.
      const auto less = logbook.after(fmt::format("DELETE FROM {} WHERE {}", table, row));
      REQUIRE_FALSE(less.misfits.empty());
      CHECK(less.misfits.front().line == line);
    }
  }
  CHECK(cells > 200);
  CHECK(kinds.size() ==
        static_cast<std::size_t>(logbook.number("SELECT count(*) FROM entry_kind")));
}

TEST_CASE("whatever column of the line itself is changed is found", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  const auto last = logbook.number("SELECT max(line) FROM entry");
  for (const auto line : {1, 2, last / 2, last}) {
    const auto where = fmt::format("line = {}", line);
    for (const auto* column : {"kind", "by_whom", "done_at", "entered_at", "device"}) {
      INFO(column << " of line " << line);
      const auto check = logbook.after(other_value(*logbook.database, "entry", column, where));
      REQUIRE_FALSE(check.misfits.empty());
      CHECK(check.misfits.front().fault == Fault::Changed);
      CHECK(check.misfits.front().line == line);
    }
    INFO("line " << line);
    CHECK_FALSE(logbook.after("UPDATE entry SET id = id || 'x' WHERE " + where).misfits.empty());
    CHECK_FALSE(
        logbook.after("UPDATE entry SET line = line + 1000 WHERE " + where).misfits.empty());
  }
}

TEST_CASE("whatever of a stored hash is changed is found", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  const auto last = logbook.number("SELECT max(line) FROM entry");
  for (const auto line : {1, 2, last}) {
    const auto where =
        fmt::format(" WHERE entry_id = (SELECT id FROM entry WHERE line = {})", line);
    for (const auto* set : {"device_before = 'x'", "file_before = 'x'", "given_later = 'x'",
                            "hash = printf('%064d', 1)", "hash = ''"}) {
      INFO(set << " of line " << line);
      const auto check = logbook.after(fmt::format("UPDATE line_hash SET {}{}", set, where));
      REQUIRE_FALSE(check.misfits.empty());
      CHECK(check.misfits.front().line == line);
    }
    CHECK_FALSE(logbook.after("DELETE FROM line_hash" + where).misfits.empty());
  }
}

TEST_CASE("a line taken out, put in or moved is found, though all is renumbered", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  const auto tables = logbook.texts(R"(
      SELECT t.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND c.name = 'entry_id')");
  const auto last = logbook.number("SELECT max(line) FROM entry");
  const auto take_out = [&](int line) {
    std::string sql;
    for (const auto& table : tables) {
      sql += fmt::format("DELETE FROM {} WHERE entry_id = (SELECT id FROM entry WHERE line = {});",
                         table, line);
    }
    return sql + fmt::format("DELETE FROM entry WHERE line = {};", line);
  };
  const auto close_up = [](int line) {
    // In two moves, since numbers are unique.
    return fmt::format(
        "UPDATE entry SET line = -line WHERE line > {0};"
        "UPDATE entry SET line = -line - 1 WHERE line < 0;",
        line);
  };
  for (const auto line : {1, 2, last / 2, last - 1}) {
    INFO("line " << line << " of " << last);
    const auto gap = logbook.after(take_out(line));
    REQUIRE_FALSE(gap.misfits.empty());
    CHECK(gap.misfits.front().fault == Fault::Numbers);
    CHECK(gap.misfits.front().line == line + 1);
    const auto closed = logbook.after(take_out(line) + close_up(line));
    REQUIRE_FALSE(closed.misfits.empty());
    CHECK(closed.misfits.front().fault == Fault::LineBefore);
    CHECK(closed.misfits.front().line == line);
    // Two lines with their numbers exchanged.
    const auto swapped = logbook.after(fmt::format(
        "UPDATE entry SET line = -1 WHERE line = {0}; UPDATE entry SET line = {0} WHERE line = {1};"
        "UPDATE entry SET line = {1} WHERE line = -1",
        line, line + 1));
    REQUIRE_FALSE(swapped.misfits.empty());
    CHECK(swapped.misfits.front().fault == Fault::Numbers);
  }
  // The last line leaves no mark in what is left; only who knows its hash sees that it is gone.
  const auto last_hash = logbook::end_hashes(*logbook.database).back();
  const SQLite::Transaction undone(*logbook.database);
  logbook.database->exec(take_out(last));
  CHECK(logbook::check_chain(*logbook.database).misfits.empty());
  CHECK(logbook::check_chain(*logbook.database, {last_hash}).sought.empty());
}

TEST_CASE("a line put in between is found, though it has a right hash of its own", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  const SQLite::Transaction undone(*logbook.database);
  logbook.database->exec(
      "UPDATE entry SET line = -line WHERE line >= 5;"
      "UPDATE entry SET line = -line + 1 WHERE line < 0");
  const auto before = logbook.texts("SELECT id FROM entry WHERE line = 4").at(0);
  auto id = before;
  id.replace(id.size() - 12, 12, "ffffffffffff");
  REQUIRE(id > before);
  const auto hash =
      logbook.texts("SELECT hash FROM line_hash WHERE entry_id = '" + before + "'").at(0);
  {
    logbook::HashChain chain(*logbook.database);
    chain.open(id);
    logbook.database->exec(fmt::format(
        "INSERT INTO entry SELECT 5, '{0}', 'renewal', by_whom, done_at, entered_at, device "
        "FROM entry WHERE line = 4;"
        "INSERT INTO renewal VALUES ('{0}', 'J01'); INSERT INTO renewal_position VALUES ('{0}', 1)",
        id));
    const logbook::Link link{hash, hash, ""};
    chain.close_as(id, link,
                   logbook::hash_of(link, logbook::CanonicalLines(*logbook.database).of(id)));
  }
  const auto check = logbook::check_chain(*logbook.database);
  REQUIRE_FALSE(check.misfits.empty());
  // Nothing comes after it, and no copy was merged that ended with it.
  CHECK(check.misfits.front().fault == Fault::NotAnEnd);
  CHECK(check.misfits.front().line == 5);
}

TEST_CASE("rows and hashes that belong to no line are found", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  const auto rows =
      logbook.after("INSERT INTO renewal VALUES ('7fffffff-ffff-7fff-8fff-000000000004', 'J01')");
  REQUIRE(rows.misfits.size() == 1);
  CHECK(rows.misfits.front().fault == Fault::RowsOfNoLine);
  CHECK(rows.misfits.front().table == "renewal");
  const auto earliest =
      logbook.after("INSERT INTO renewal VALUES ('00000000-0000-7000-8000-000000000001', 'J01')");
  REQUIRE(earliest.misfits.size() == 1);
  CHECK(earliest.misfits.front().fault == Fault::RowsOfNoLine);
  const auto hash = logbook.after(
      "INSERT INTO line_hash VALUES ('7fffffff-ffff-7fff-8fff-000000000004', '', '', '', '')");
  REQUIRE(hash.misfits.size() == 1);
  CHECK(hash.misfits.front().fault == Fault::HashOfNoLine);
}

TEST_CASE("whatever of the schema is taken out, altered or put in is named", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("a.bolts");
  make_random_logbook(path, 12);
  SQLite::Database database(path, SQLite::OPEN_READWRITE);
  CHECK(logbook::verify(path).fits());

  std::vector<std::pair<std::string, std::string>> objects;
  SQLite::Statement each(database, R"(
      SELECT type, name FROM sqlite_schema WHERE sql IS NOT NULL AND type <> 'table')");
  while (each.executeStep()) {
    objects.emplace_back(each.getColumn(0).getString(), each.getColumn(1).getString());
  }
  each.reset();
  CHECK(objects.size() > 100);
  for (const auto& [type, name] : objects) {
    INFO(type << ' ' << name);
    const SQLite::Transaction undone(database);
    database.exec(fmt::format("DROP {} {}", type, name));
    const auto found = logbook::verify_open(database, logbook::Look::AtLinesToo);
    REQUIRE(found.objects.size() == 1);
    CHECK(found.objects.front().how == record::SchemaMisfit::How::Missing);
    CHECK(found.objects.front().name == name);
    CHECK_FALSE(found.fits());
  }
  using How = record::SchemaMisfit::How;
  const std::vector<std::tuple<std::string, How, std::string>> changes = {
      {"CREATE TRIGGER x AFTER INSERT ON entry BEGIN SELECT 1; END", How::Added, "x"},
      {"CREATE VIEW x AS SELECT 1", How::Added, "x"},
      {"CREATE TABLE x (a)", How::Added, "x"},
      {"CREATE INDEX x ON entry (by_whom)", How::Added, "x"},
      {"DROP VIEW settled; CREATE VIEW settled AS SELECT 1", How::Altered, "settled"},
      {"DROP TRIGGER entry_hashed; CREATE TRIGGER entry_hashed BEFORE DELETE ON entry BEGIN SELECT "
       "1; END",
       How::Altered, "entry_hashed"},
      {"ALTER TABLE fluid ADD COLUMN x TEXT", How::Altered, "fluid"},
  };
  for (const auto& [sql, how, name] : changes) {
    INFO(sql);
    const SQLite::Transaction undone(database);
    database.exec(sql);
    const auto found = logbook::verify_open(database, logbook::Look::AtLinesToo);
    REQUIRE_FALSE(found.objects.empty());
    CHECK(found.objects.front().how == how);
    CHECK(found.objects.front().name == name);
    CHECK_FALSE(found.fits());
  }
}

TEST_CASE("verify tells how many steps are coming, then each line recomputed and read",
          "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("a.bolts");
  make_random_logbook(path, 5);
  std::size_t coming = 0;
  std::size_t done = 0;
  const logbook::LinesProgress progress{[&](std::size_t all) { coming = all; }, [&] { ++done; }};
  const auto found = logbook::verify(path, {}, logbook::Waiting::silent(), progress);
  CHECK(found.fits());
  CHECK(coming > 20);
  CHECK(coming == 2 * static_cast<std::size_t>(found.chain->lines));
  CHECK(done <= coming);  // what is struck is recomputed and not read
  CHECK(done > coming * 3 / 4);
}

TEST_CASE("a word of the table of kinds that was altered is named", "[logbook]") {
  const FewLines few;
  const auto& logbook = *few.unguarded;
  CHECK(logbook::verify_open(*logbook.database, logbook::Look::AtLinesToo).kinds.empty());
  const std::vector<std::pair<std::string, std::string>> changes = {
      {"UPDATE entry_kind SET meaning = meaning || '.' WHERE kind = 'removal'", "removal"},
      {"DELETE FROM entry_kind WHERE kind = 'fluid'", "fluid"},
      {"INSERT INTO entry_kind VALUES ('screw', 'x')", "screw"},
  };
  for (const auto& [sql, kind] : changes) {
    INFO(sql);
    const SQLite::Transaction undone(*logbook.database);
    logbook.database->exec(sql);
    const auto found = logbook::verify_open(*logbook.database, logbook::Look::AtLinesToo);
    CHECK(found.kinds == std::vector<std::string>{kind});
    CHECK_FALSE(found.fits());
  }
}

}  // namespace verification_test
