// A logbook that is only looked at beside the one at hand stays byte for byte as it is.

#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/recording.h"
#include "logbook/schema.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/temporary_folder.h"

namespace open_unchanged_test {

using logbook::Logbook;

namespace {

// A logbook as the first schema has it, with nothing but its first line.
std::string of_the_first_schema(const TemporaryFolder& folder) {
  const auto path = folder.file("older.bolts");
  SQLite::Database database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec("PRAGMA application_id = " + std::to_string(logbook::kApplicationId));
  logbook::apply_steps(database, {logbook::schema_steps().front()});
  database.exec(
      "INSERT INTO entry VALUES (1, '01970000-0000-7000-8000-000000000001', 'start', 'KB', "
      "'2020-06-01T08:00:00.000Z', '2020-06-01T08:00:00.000Z', "
      "'00000000-0000-4000-8000-000000000001')");
  database.exec(
      "INSERT INTO logbook_start VALUES ('01970000-0000-7000-8000-000000000001', 'GB-1 of 2020', "
      "'N·m', 10, 2)");
  database.exec("PRAGMA journal_mode = WAL");
  return path;
}

}  // namespace

TEST_CASE("a logbook of an older schema is read and stays at its schema", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = of_the_first_schema(folder);
  const auto before = content_of(path);
  CHECK(Logbook::open_unchanged(path).job().start.machine == "GB-1 of 2020");
  CHECK(content_of(path) == before);
}

TEST_CASE("what a writer has not yet put into the file is read as well", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = of_the_first_schema(folder);
  { const auto brought_up_to_date = Logbook::open_to_write(path); }
  // Whoever reads meanwhile keeps the lines that follow out of the file.
  SQLite::Database reader(path, SQLite::OPEN_READONLY);
  const SQLite::Transaction moment(reader);
  CHECK(reader.execAndGet("SELECT count(*) FROM entry").getInt() == 1);
  auto logbook = Logbook::open_to_write(path);
  logbook::Recording recording(logbook, {"KB", "00000000-0000-4000-8000-000000000001",
                                         record::read_moment("2020-06-01T08:00:00Z"),
                                         record::read_moment("2020-06-01T08:00:00Z")});
  recording.append(record::Renewal{"J06", {1}});
  recording.commit();
  const auto before = content_of(path);
  CHECK(Logbook::open_unchanged(path).job().renewals.size() == 1);
  CHECK(content_of(path) == before);
}

TEST_CASE("what is no logbook is refused unchanged", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("text.bolts");
  std::ofstream(path) << "no logbook";
  CHECK_THROWS_AS(Logbook::open_unchanged(path), logbook::LogbookError);
  CHECK_THROWS_AS(Logbook::open_unchanged(folder.file("none.bolts")), logbook::LogbookError);
  CHECK(content_of(path) == "no logbook");
}

}  // namespace open_unchanged_test
