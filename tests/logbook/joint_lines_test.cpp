#include <SQLiteCpp/SQLiteCpp.h>

#include "failure/failure.h"
#include "logbook/logbook.h"
#include "record/address.h"
#include "record/concerns.h"
#include "support/catch.h"
#include "support/random_logbook.h"
#include "support/temporary_folder.h"
#include "words/line_text.h"

namespace joint_lines_test {

namespace {

// What is told of each line that concerns the joint.
std::vector<std::string> told(const std::vector<record::HistoryLine>& lines,
                              const std::string& joint) {
  std::vector<std::string> all;
  for (const auto& line : lines) {
    if (!record::concerns(line.content, {joint, {}})) continue;
    auto text = line.stamp.id + ' ' + words::line_text(line.content);
    if (line.struck_by) text += ' ' + line.struck_by->id + ' ' + line.struck_why;
    for (const auto& again : line.struck_again) text += ' ' + again.by.id + ' ' + again.why;
    all.push_back(std::move(text));
  }
  return all;
}

std::string last_used(const record::Job& job) {
  const record::Stamp* last = nullptr;
  std::string name;
  const auto take = [&](const auto& entries) {
    for (const auto& entry : entries) {
      if (last != nullptr && !record::is_later(entry.stamp, *last)) continue;
      last = &entry.stamp;
      name = entry.content.wrench;
    }
  };
  take(job.findings);
  take(job.pulls);
  return name;
}

// More than is held against its hashes as a whole, of pages that hold nothing.
void enlarge(const std::string& path) {
  SQLite::Database shell(path, SQLite::OPEN_READWRITE);
  shell.exec("CREATE TABLE room (a); INSERT INTO room VALUES (zeroblob(9000000)); DROP TABLE room");
}

// As a shell would that takes the trigger out and puts it back.
void change(const std::string& path, const std::string& trigger, const std::string& sql) {
  SQLite::Database shell(path, SQLite::OPEN_READWRITE);
  SQLite::Statement row(shell, "SELECT sql FROM sqlite_schema WHERE name = ?");
  row.bind(1, trigger);
  REQUIRE(row.executeStep());
  const auto made = row.getColumn(0).getString();
  row.reset();
  shell.exec("DROP TRIGGER " + trigger);
  shell.exec(sql);
  shell.exec(made);
}

}  // namespace

TEST_CASE("the lines of one joint are those of the history", "[logbook]") {
  const bool is_large = GENERATE(false, true);
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const TemporaryFolder folder;
    const auto path = folder.file("a.bolts");
    make_random_logbook(path, seed);
    if (is_large) enlarge(path);
    const auto logbook = logbook::Logbook::open_to_read(path);
    const auto history = logbook.history();
    for (const auto& joint : logbook.joint_codes()) {
      INFO(seed << ' ' << joint);
      const auto lines = logbook.history_of(joint);
      CHECK(told(lines, joint) == told(history, joint));
    }
  }
}

TEST_CASE("the wrench used last is that of the last test or pull", "[logbook]") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const TemporaryFolder folder;
    const auto path = folder.file("a.bolts");
    make_random_logbook(path, seed);
    INFO(seed);
    const auto logbook = logbook::Logbook::open_to_read(path);
    CHECK(logbook.wrench_used_last() == last_used(logbook.job()));
  }
}

TEST_CASE("in a large file a line that was changed is named by what reads it, and by that alone",
          "[logbook]") {
  const TemporaryFolder folder;
  std::string path;
  std::vector<std::string> codes;
  for (unsigned seed = 1; codes.size() < 2; ++seed) {
    path = folder.file(std::to_string(seed) + ".bolts");
    make_random_logbook(path, seed);
    codes = logbook::Logbook::open_to_read(path).joint_codes();
  }
  enlarge(path);
  std::string changed;
  {
    SQLite::Database shell(path, SQLite::OPEN_READONLY);
    changed = shell
                  .execAndGet(
                      "SELECT code FROM joint WHERE entry_id NOT IN "
                      "(SELECT struck_id FROM strike) ORDER BY entry_id LIMIT 1")
                  .getString();
  }
  change(path, "joint_never_changed",
         "UPDATE joint SET holds = 'another' WHERE entry_id = (SELECT min(entry_id) FROM joint "
         "WHERE entry_id NOT IN (SELECT struck_id FROM strike))");
  for (const auto& code : codes) {
    INFO(code);
    if (record::same_code(code, changed)) {
      CHECK_THROWS_WITH(logbook::Logbook::open_to_read(path).history_of(code),
                        ContainsSubstring("is not what was written"));
    } else {
      CHECK_FALSE(logbook::Logbook::open_to_read(path).history_of(code).empty());
    }
  }
}

}  // namespace joint_lines_test
