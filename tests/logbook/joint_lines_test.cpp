#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

#include "failure/failure.h"
#include "logbook/logbook.h"
#include "record/address.h"
#include "record/concerns.h"
#include "support/catch.h"
#include "support/random_logbook.h"
#include "support/temporary_folder.h"
#include "support/trial.h"
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

TEST_CASE("what an index of a large file lost is neither not there nor new", "[logbook]") {
  Trial trial;
  const auto path = trial.folder().file("a.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.done("start " + path + " --machine GB-1");
  trial.done("joint P77 --holds cap --size M8 --grade 8.8 --count 4");
  trial.done("wrench TW77 --range '1..20 N·m' --graduation '1 N·m'");
  enlarge(path);
  for (const auto& [index, name] :
       {std::pair("joint_by_code", "P77"), std::pair("wrench_by_name", "TW77")}) {
    std::streamoff page = 0;
    int size = 0;
    {
      SQLite::Database shell(path, SQLite::OPEN_READWRITE);
      shell.exec("PRAGMA wal_checkpoint(TRUNCATE)");
      SQLite::Statement root(shell, "SELECT rootpage FROM sqlite_schema WHERE name = ?");
      root.bind(1, index);
      REQUIRE(root.executeStep());
      size = shell.execAndGet("PRAGMA page_size").getInt();
      page = (root.getColumn(0).getInt64() - 1) * size;
    }
    std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
    std::string bytes(static_cast<std::size_t>(size), '\0');
    file.seekg(page).read(bytes.data(), size);
    const auto at = bytes.find(name);
    REQUIRE(at != std::string::npos);
    const auto last = static_cast<std::streamoff>(at + std::string_view(name).size() - 1);
    file.seekp(page + last).put('8');
  }
  for (const std::string command :
       {"out P77/1", "joint P77 --holds other --size M8 --grade 8.8 --count 4", "show P77",
        "wrench TW77 --range '1..30 N·m' --graduation '1 N·m'"}) {
    const auto refused = trial.run(command);
    INFO(command << ": " << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("damaged"));
  }
  CHECK(trial.run("out P99/1").code == 1);
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
