// A logbook of an earlier version is brought up to date once, whoever comes, and the copy made
// before never takes anything's place.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/schema.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
#include "support/temporary_folder.h"

namespace upgrade_test {

namespace {

namespace fs = std::filesystem;

// The logbook that the first version saved, in a folder of its own.
class FirstVersion {
 public:
  FirstVersion() : path(folder.file("a.bolts")), copy(path + ".schema-1") {
    fs::copy_file(BOLTWITNESS_SAVED "/version_1.bolts", path);
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  }
  TemporaryFolder folder;
  std::string path;
  std::string copy;
};

int version_of(const std::string& path) {
  SQLite::Database database(path, SQLite::OPEN_READONLY);
  return logbook::schema_version(database);
}

}  // namespace

TEST_CASE("the copy before an upgrade takes no file's place", "[logbook]") {
  const FirstVersion first;
  const auto before = content_of(first.path);
  SECTION("not that of another logbook of this name") {
    std::ofstream(first.copy) << "another logbook";
    (void)logbook::Logbook::open_to_write(first.path);
    CHECK(content_of(first.copy) == "another logbook");
    CHECK(version_of(first.copy + "-2") == 1);
  }
  SECTION("nor of what a link leads to, be it nothing") {
    const auto target = first.folder.file("target");
    fs::create_symlink(target, first.copy);
    (void)logbook::Logbook::open_to_write(first.path);
    CHECK_FALSE(fs::exists(target));
    CHECK(fs::is_symlink(first.copy));
    CHECK(version_of(first.copy + "-2") == 1);
  }
  SECTION("and has the permissions of the logbook") {
    (void)logbook::Logbook::open_to_write(first.path);
    struct stat status {};
    REQUIRE(::stat(first.copy.c_str(), &status) == 0);
    CHECK((status.st_mode & 07777U) == 0600U);
    CHECK(version_of(first.copy) == 1);
  }
  CHECK(version_of(first.path) == logbook::schema_steps().back().version);
}

TEST_CASE("of many that come at once one upgrades and the others wait", "[logbook]") {
  const FirstVersion first;
  constexpr int kWriters = 12;
  std::vector<pid_t> children;
  for (int i = 0; i < kWriters; ++i) {
    const pid_t child = ::fork();
    if (child == 0) {
      try {
        if (i % 2 == 0) {
          (void)logbook::Logbook::open_to_write(first.path).history();
        } else {
          (void)logbook::Logbook::open_to_read(first.path).history();
        }
        ::_exit(0);
      } catch (const logbook::LogbookError&) {
        ::_exit(3);
      }
    }
    REQUIRE(child > 0);
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
  }
  CHECK(version_of(first.path) == logbook::schema_steps().back().version);
  CHECK(version_of(first.copy) == 1);
  CHECK_FALSE(fs::exists(first.copy + "-2"));
}

TEST_CASE("an adapter in an earlier version's words becomes measures", "[logbook]") {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  logbook::apply_steps(database, logbook::steps_up_to(7));
  int line = 0;
  const auto add = [&](const std::string& words, double ratio) {
    const auto id = fmt::format("01970000-0000-7000-8000-00000000000{}", ++line);
    database.exec(fmt::format(
        "INSERT INTO entry VALUES ({0}, '{1}', 'finding', 'KB', '2026-01-01T08:00:00.000Z', "
        "'2026-01-01T08:00:00.000Z', '00000000-0000-4000-8000-000000000001');"
        "INSERT INTO finding (entry_id, joint_code, position, wrench_name, scale_unit, adapter, "
        "adapter_ratio, prevailing_typed, restart) "
        "VALUES ('{1}', 'J01', 1, 'TW2', 'N·m', '{2}', {3}, '', 'stacked')",
        line, id, words, ratio));
  };
  // Source: US Army TM 9-254 (W060): wrench of 12 in, adapter of 2 in: 14/12.
  add("extension 2 in at 0° on a wrench of 12 in", 14.0 / 12.0);
  add("extension 50mm at -1/4 turn on a wrench of 16in", 1.0);
  add("crowfoot of Kim at the shop", 1.125);
  add("extension 2 in at 0° on a wrench of 12 in", 1.5);  // measures of another adapter
  add("", 1.0);
  logbook::apply_steps(database, logbook::schema_steps());

  SQLite::Statement row(database, R"(
      SELECT adapter, adapter_extension_mm, adapter_wrench_length_mm, adapter_angle_deg,
             adapter_extension_typed, adapter_wrench_length_typed, adapter_angle_typed
      FROM finding ORDER BY entry_id)");
  REQUIRE(row.executeStep());
  CHECK(row.getColumn(0).getString().empty());
  CHECK_THAT(row.getColumn(1).getDouble(), WithinRel(50.8, 1e-12));
  CHECK_THAT(row.getColumn(2).getDouble(), WithinRel(304.8, 1e-12));
  CHECK(row.getColumn(3).getDouble() == 0.0);
  CHECK(row.getColumn(4).getString() == "2 in");
  CHECK(row.getColumn(5).getString() == "12 in");
  CHECK(row.getColumn(6).getString() == "0°");
  REQUIRE(row.executeStep());
  CHECK(row.getColumn(1).getDouble() == 50.0);
  CHECK_THAT(row.getColumn(3).getDouble(), WithinRel(-90.0, 1e-12));
  CHECK(row.getColumn(6).getString() == "-1/4 turn");
  for (const auto* words :
       {"crowfoot of Kim at the shop", "extension 2 in at 0° on a wrench of 12 in", ""}) {
    REQUIRE(row.executeStep());
    CHECK(row.getColumn(0).getString() == words);
    CHECK(row.isColumnNull(1));
    CHECK(row.isColumnNull(2));
    CHECK(row.isColumnNull(3));
    CHECK(row.getColumn(4).getString().empty());
  }
  row.reset();
  // And from then on nothing is changed any more.
  CHECK_THROWS_AS(database.exec("UPDATE finding SET adapter = 'x'"), SQLite::Exception);
}

}  // namespace upgrade_test
