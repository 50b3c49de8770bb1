#include "logbook/logbook.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "failure/failure.h"
#include "logbook/logbook_error.h"
#include "logbook/recording.h"
#include "logbook/schema.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/temporary_folder.h"

namespace logbook_test {

using logbook::Logbook;
using logbook::LogbookError;
using logbook::Recording;
using Kind = LogbookError::Kind;

namespace {

logbook::Writer writer() {
  const auto now = record::read_moment("2026-06-01T08:00:00Z");
  return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
}

// A logbook with one wrench, joint, specification, removal and finding.
class SmallLogbook {
 public:
  SmallLogbook() {
    record::LogbookStart start;
    start.machine = "GB-1";
    logbook::start_logbook(path(), start, writer());
    auto open = Logbook::open_to_write(path());
    Recording recording(open, writer());
    recording.append(wrench());
    recording.append(joint());
    record::Specified specified;
    specified.joint = "J01";
    specified.typed = "80 Nm";
    specified.procedure = record::read_specification("80 Nm");
    recording.append(specified);
    record::Removal removal;
    removal.joint = "J01";
    removal.positions = {1, 2, 5};
    removal.bag = "bag 1";
    recording.append(removal);
    record::Measured measured;
    measured.joint = "J01";
    measured.position = 2;
    measured.wrench = "TW2";
    measured.readings = record::read_readings("60s 75s 6° 80o", std::nullopt);
    recording.append(measured);
    recording.commit();
  }

  static record::Wrench wrench() {
    record::Wrench wrench;
    wrench.name = "TW2";
    wrench.scale = {20, 200, quantity::TorqueUnit::NewtonMetre};
    wrench.graduation = 1;
    wrench.calibrated = record::read_day("2026-03-02");
    return wrench;
  }

  static record::Joint joint() {
    record::Joint joint;
    joint.code = "J01";
    joint.holds = "cover";
    joint.size = "M12x1.75";
    joint.length = quantity::Length::millimetres(90);
    joint.grade = "8.8";
    joint.count = 6;
    joint.after = {"J02"};
    return joint;
  }

  [[nodiscard]] std::string path() const { return folder_.file("gb1.bolts"); }
  [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

 private:
  TemporaryFolder folder_;
};

Kind kind_of_failure(const std::function<void()>& act) {
  try {
    act();
  } catch (const LogbookError& error) {
    return error.kind();
  }
  throw std::runtime_error("nothing failed");
}

}  // namespace

TEST_CASE("what is written is read back", "[logbook]") {
  const SmallLogbook small;
  const auto job = Logbook::open_to_read(small.path()).job();
  CHECK(job.start.machine == "GB-1");
  REQUIRE(job.wrenches.size() == 1);
  CHECK(job.wrenches[0].content.scale.high == 200.0);
  CHECK(record::write_day(*job.wrenches[0].content.calibrated) == "2026-03-02");
  CHECK_FALSE(job.wrenches[0].content.accuracy.has_value());
  REQUIRE(job.joints.size() == 1);
  CHECK(job.joints[0].content.length->in_millimetres() == 90.0);
  CHECK(job.joints[0].content.after == std::vector<std::string>{"J02"});
  REQUIRE(job.specifications.size() == 1);
  CHECK(job.specifications[0].content.typed == "80 Nm");
  CHECK(record::write_exact(job.specifications[0].content.procedure) == "80 N·m");
  REQUIRE(job.removals.size() == 1);
  CHECK(job.removals[0].content.positions == std::vector{1, 2, 5});
  REQUIRE(job.findings.size() == 1);
  CHECK(record::write_exact(job.findings[0].content.readings) == "60s 75s 6° 80o");
  CHECK(job.findings[0].stamp.line == 6);
  CHECK(job.findings[0].stamp.by == "KB");
  CHECK(job.joints[0].stamp.id < job.findings[0].stamp.id);
}

TEST_CASE("the job of one joint holds that joint and every wrench", "[logbook]") {
  const SmallLogbook small;
  const auto logbook = Logbook::open_to_read(small.path());
  CHECK(logbook.job_of("j01").findings.size() == 1);
  CHECK(logbook.job_of("J09").findings.empty());
  CHECK(logbook.job_of("J09").wrenches.size() == 1);
}

TEST_CASE("no line can be changed, removed or replaced, by whatever program", "[logbook]") {
  const SmallLogbook small;
  SQLite::Database shell(small.path(), SQLite::OPEN_READWRITE);
  const auto refused = [&](const std::string& sql) {
    INFO(sql);
    CHECK_THROWS_AS(shell.exec(sql), SQLite::Exception);
  };
  SQLite::Statement tables(shell, R"(
      SELECT name FROM sqlite_schema
      WHERE type = 'table' AND name <> 'entry_kind' AND name NOT LIKE 'sqlite_%' ORDER BY name)");
  int count = 0;
  while (tables.executeStep()) {
    const auto table = tables.getColumn(0).getString();
    const bool filled = shell.execAndGet("SELECT count(*) FROM " + table).getInt() > 0;
    if (!filled) continue;
    refused("DELETE FROM " + table);
    SQLite::Statement columns(shell, "SELECT name FROM pragma_table_info('" + table + "')");
    while (columns.executeStep()) {
      const auto column = columns.getColumn(0).getString();
      refused("UPDATE " + table + " SET " + column + " = " + column);
    }
    refused("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table + " LIMIT 1");
    refused("INSERT OR IGNORE INTO " + table + " SELECT * FROM " + table + " LIMIT 1");
    ++count;
  }
  CHECK(count == 11);  // all but strike
  refused(
      "INSERT INTO removal_position (entry_id, position) "
      "SELECT entry_id, 6 FROM removal");  // the content of an old line grows
}

TEST_CASE("a struck line counts no longer but stays in the file", "[logbook]") {
  const SmallLogbook small;
  auto logbook = Logbook::open_to_write(small.path());
  const auto line = logbook.line(6);
  REQUIRE(line.has_value());
  CHECK(line->kind == "finding");
  CHECK_FALSE(line->struck);
  {
    Recording recording(logbook, writer());
    recording.append(record::Strike{line->id, "wrong position"});
    recording.commit();
  }
  CHECK(logbook.line(6)->struck);
  CHECK(logbook.job().findings.empty());
  SQLite::Database shell(small.path(), SQLite::OPEN_READONLY);
  CHECK(shell.execAndGet("SELECT count(*) FROM finding").getInt() == 1);
}

TEST_CASE("a recording that is not committed leaves nothing", "[logbook]") {
  const SmallLogbook small;
  auto logbook = Logbook::open_to_write(small.path());
  {
    Recording recording(logbook, writer());
    recording.append(SmallLogbook::wrench());
  }
  CHECK(logbook.job().wrenches.size() == 1);
  CHECK_FALSE(logbook.line(7).has_value());
}

TEST_CASE("what a calibration found reads back, and so does that nothing was told", "[logbook]") {
  const SmallLogbook small;
  auto logbook = Logbook::open_to_write(small.path());
  Recording recording(logbook, writer());
  auto calibrated = SmallLogbook::wrench();
  calibrated.found_off = quantity::Percent::of_hundred(6.5);
  recording.append(calibrated);
  recording.commit();
  const auto wrenches = logbook.job().wrenches;
  REQUIRE(wrenches.size() == 2);
  CHECK_FALSE(wrenches[0].content.found_off.has_value());
  REQUIRE(wrenches[1].content.found_off.has_value());
  CHECK(wrenches[1].content.found_off->in_percent() == 6.5);
}

TEST_CASE("a logbook from before calibration results opens and takes one", "[logbook]") {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  const auto& all = logbook::schema_steps();
  std::vector<logbook::SchemaStep> before;
  std::ranges::copy_if(all, std::back_inserter(before),
                       [](const auto& step) { return step.version < 4; });
  logbook::apply_steps(database, before);
  database.exec(
      "INSERT INTO entry VALUES (1, '01970000-0000-7000-8000-000000000001', 'wrench', 'KB', "
      "'2026-01-01T08:00:00.000Z', '2026-01-01T08:00:00.000Z', "
      "'00000000-0000-4000-8000-000000000001');"
      "INSERT INTO wrench VALUES ('01970000-0000-7000-8000-000000000001', 'TW2', 'N·m', 20, 200, "
      "20, 200, 1, 'setting', NULL, '', '2026-01-01', 12, '', '', '')");
  logbook::apply_steps(database, all);
  CHECK(logbook::schema_version(database) == all.back().version);
  CHECK(database.execAndGet("SELECT found_off_percent IS NULL FROM wrench").getInt() == 1);
  CHECK_THROWS_AS(database.exec("UPDATE wrench SET found_off_percent = 3"), SQLite::Exception);
}

TEST_CASE("the views speak to a person with the shell", "[logbook]") {
  const SmallLogbook small;
  SQLite::Database shell(small.path(), SQLite::OPEN_READONLY);
  SQLite::Statement row(shell,
                        "SELECT joint, position, specified_nm, specified_ftlbf, found_nm, "
                        "found_inlbf, found_above_nm, ratio FROM specification_and_found");
  REQUIRE(row.executeStep());
  CHECK(row.getColumn(0).getString() == "J01");
  CHECK(row.getColumn(1).getInt() == 2);
  CHECK(row.getColumn(2).getDouble() == 80.0);
  CHECK(row.getColumn(3).getDouble() == 59.0);  // 80 / 1.3558179483314004 = 59.005
  CHECK(row.getColumn(4).getDouble() == 80.0);
  CHECK(row.getColumn(5).getDouble() == 708.1);  // 80 / 0.1129848290276167 = 708.06
  CHECK(row.getColumn(6).getDouble() == 75.0);
  CHECK(row.getColumn(7).getDouble() == 1.0);
  CHECK_FALSE(row.executeStep());
}

TEST_CASE("the file is a safe one and is marked as ours", "[logbook]") {
  const SmallLogbook small;
  SQLite::Database shell(small.path(), SQLite::OPEN_READONLY);
  CHECK(shell.execAndGet("PRAGMA application_id").getInt() == 0x42576974);
  CHECK(shell.execAndGet("PRAGMA user_version").getInt() == logbook::schema_steps().back().version);
  CHECK(shell.execAndGet("PRAGMA journal_mode").getString() == "wal");
  CHECK(shell.execAndGet("PRAGMA integrity_check").getString() == "ok");
  CHECK(shell
            .execAndGet("SELECT count(*) FROM pragma_table_list "
                        "WHERE type = 'table' AND NOT strict AND name NOT LIKE 'sqlite_%'")
            .getInt() == 0);
}

TEST_CASE("starting never touches a file that is there", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("notes.bolts");
  std::ofstream(path) << "my notes";
  record::LogbookStart start;
  start.machine = "GB-1";
  CHECK(kind_of_failure([&] { logbook::start_logbook(path, start, writer()); }) == Kind::Exists);
  CHECK(content_of(path) == "my notes");
  CHECK_THROWS_AS(logbook::start_logbook(folder.file("no/such/folder.bolts"), start, writer()),
                  failure::InputError);
  CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("what is no logbook is refused by name", "[logbook]") {
  const TemporaryFolder folder;
  const auto open = [&](const std::string& name) {
    return kind_of_failure([&] { (void)Logbook::open_to_read(folder.file(name)); });
  };
  CHECK(open("missing.bolts") == Kind::NotFound);
  std::ofstream(folder.file("text.bolts")) << "this is no data base at all, just some text";
  CHECK(open("text.bolts") == Kind::NotALogbook);
  std::ofstream(folder.file("empty.bolts")) << "";
  CHECK(open("empty.bolts") == Kind::NotALogbook);
  SQLite::Database(folder.file("other.bolts"), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
      .exec("CREATE TABLE t (x)");
  CHECK(open("other.bolts") == Kind::NotALogbook);
  std::filesystem::create_directory(folder.path() / "folder.bolts");
  CHECK(open("folder.bolts") == Kind::NotALogbook);
}

TEST_CASE("a logbook of a later version is refused with both numbers", "[logbook]") {
  const SmallLogbook small;
  SQLite::Database(small.path(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 99");
  CHECK(kind_of_failure([&] { (void)Logbook::open_to_read(small.path()); }) == Kind::NewerSchema);
  CHECK_THROWS_WITH(
      Logbook::open_to_read(small.path()),
      ContainsSubstring("99") &&
          ContainsSubstring(fmt::format("up to {}", logbook::schema_steps().back().version)));
}

TEST_CASE("a cut-off file is called damaged, and nothing is written to it", "[logbook]") {
  const SmallLogbook small;
  const auto whole = content_of(small.path());
  std::filesystem::resize_file(small.path(), whole.size() / 2);
  const auto cut = content_of(small.path());
  CHECK(kind_of_failure([&] { (void)Logbook::open_to_read(small.path()).job(); }) == Kind::Damaged);
  CHECK(content_of(small.path()) == cut);
}

TEST_CASE("a logbook held by another writer is busy, and readable", "[logbook]") {
  const SmallLogbook small;
  auto holder = Logbook::open_to_write(small.path());
  const Recording held(holder, writer());
  SQLite::Database other(small.path(), SQLite::OPEN_READWRITE, 10);
  CHECK_THROWS_AS(other.exec("BEGIN IMMEDIATE"), SQLite::Exception);
  CHECK(Logbook::open_to_read(small.path()).job().joints.size() == 1);
}

}  // namespace logbook_test
