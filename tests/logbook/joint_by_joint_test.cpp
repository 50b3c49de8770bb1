// A command about one joint reads that joint's rows and no others.

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "logbook/every_kind.h"
#include "logbook/logbook.h"
#include "record/address.h"
#include "record/concerns.h"
#include "support/catch.h"
#include "support/random_logbook.h"
#include "support/temporary_folder.h"
#include "words/line_text.h"

namespace joint_by_joint_test {

namespace {

// What the library is asked, word for word.
int note_statement(unsigned, void* context, void* statement, void*) {
  const auto* sql = sqlite3_sql(static_cast<sqlite3_stmt*>(statement));
  if (sql != nullptr) static_cast<std::vector<std::string>*>(context)->emplace_back(sql);
  return 0;
}

std::vector<std::string> plan_of(SQLite::Database& database, const std::string& sql) {
  SQLite::Statement row(database, "EXPLAIN QUERY PLAN " + sql);
  std::vector<std::string> steps;
  while (row.executeStep()) steps.push_back(row.getColumn(3).getString());
  return steps;
}

// Whether there is any row is asked of the first (rows/empty_table.h).
bool looks_at_one_row(const std::string& sql) {
  return sql.starts_with("SELECT 1 FROM ") && sql.ends_with(" LIMIT 1");
}

// All lines of a job in words, by their numbers.
std::map<std::int64_t, std::string> lines_of(const record::Job& job) {
  std::map<std::int64_t, std::string> lines;
  record::for_each_entry(job, [&](const auto& entry) {
    lines.emplace(entry.stamp.line, words::line_text(entry.content));
  });
  return lines;
}

}  // namespace

TEST_CASE("looking up one joint scans no table of other joints' lines", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("a.bolts");
  make_random_logbook(path, 7);
  SQLite::Database database(path, SQLite::OPEN_READONLY);
  std::vector<std::string> asked;
  sqlite3_trace_v2(database.getHandle(), SQLITE_TRACE_STMT, note_statement, &asked);
  std::vector<record::UnreadableLine> unreadable;
  record::Job job;
  logbook::read_lines_of_joints(database, {unreadable, "J00"}, job);
  sqlite3_trace_v2(database.getHandle(), 0, nullptr, nullptr);
  CHECK(unreadable.empty());
  REQUIRE(job.joints.size() == 1);
  std::erase_if(asked, looks_at_one_row);
  CHECK(asked.size() >= 10);
  for (const auto& sql : asked) {
    INFO(sql);
    bool is_searched = false;
    for (const auto& step : plan_of(database, sql)) {
      INFO(step);
      // The table of strikes is only looked into, through its index.
      const bool is_scan = step.starts_with("SCAN");
      CHECK_FALSE(is_scan);
      is_searched = is_searched || step.starts_with("SEARCH");
    }
    CHECK(is_searched);
  }
}

TEST_CASE("reading a kind as a whole looks its entries up and scans them not", "[logbook]") {
  const TemporaryFolder folder;
  const auto path = folder.file("a.bolts");
  make_random_logbook(path, 7);
  SQLite::Database database(path, SQLite::OPEN_READONLY);
  std::vector<std::string> asked;
  sqlite3_trace_v2(database.getHandle(), SQLITE_TRACE_STMT, note_statement, &asked);
  std::vector<record::UnreadableLine> unreadable;
  record::Job job;
  logbook::read_lines_of_joints(database, {unreadable}, job);
  logbook::read_lines_of_none(database, {unreadable}, job);
  sqlite3_trace_v2(database.getHandle(), 0, nullptr, nullptr);
  std::erase_if(asked, looks_at_one_row);
  for (const auto& sql : asked) {
    for (const auto& step : plan_of(database, sql)) {
      INFO(sql << '\n' << step);
      CHECK_FALSE(step.starts_with("SCAN e"));
      CHECK_FALSE(step.starts_with("SCAN p"));
    }
  }
}

TEST_CASE("joint by joint comes to the same lines as the job as a whole", "[logbook]") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const TemporaryFolder folder;
    const auto path = folder.file("a.bolts");
    make_random_logbook(path, seed);
    const auto logbook = logbook::Logbook::open_to_read(path);
    const auto whole = lines_of(logbook.job());
    std::map<std::int64_t, std::string> together;
    const auto of_none = lines_of(logbook.job_of_none());
    for (const auto& code : logbook.joint_codes()) {
      const auto job = logbook.job_of(code);
      REQUIRE_FALSE(job.joints.empty());
      CHECK(record::same_code(job.joints.back().content.code, code));
      CHECK(job.start.machine == logbook.job().start.machine);
      auto of_joint = lines_of(job);
      for (const auto& [line, says] : of_none) CHECK(of_joint.at(line) == says);
      together.merge(of_joint);
    }
    // A decision may be about no joint, and so may a photograph.
    for (const auto& [line, says] : whole) {
      INFO(line << ": " << says);
      CHECK((together.contains(line) || says.starts_with("settled ") ||
             says.starts_with("photograph of machine")));
    }
    for (const auto& [line, says] : together) CHECK(whole.at(line) == says);
  }
}

}  // namespace joint_by_joint_test
