#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "failure/failure.h"
#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "record/address.h"
#include "record/concerns.h"
#include "support/catch.h"
#include "support/every_deed.h"
#include "support/forged_logbook.h"
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

namespace {

// A large logbook with lines of every kind about J01, and the strikes of some.
struct Large {
  Trial trial;
  std::string path = trial.folder().file("a.bolts");

  Large() {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
    for (const auto& deed : every_deed(trial.folder(), path)) {
      trial.typed = deed.typed;
      trial.done(deed.command);
    }
    trial.done("strike 9 --why 'not so'");
    {
      auto logbook = logbook::Logbook::open_to_write(path);
      const auto now = record::read_moment("2026-11-30T08:00:00Z");
      logbook::Recording recording(logbook,
                                   {"KB", "00000000-0000-4000-8000-000000000001", now, now});
      recording.append(record::Pull{"J01", 3, "TW1", quantity::TorqueUnit::NewtonMetre,
                                    record::Restart::BackedOff,
                                    record::read_readings("20s", std::nullopt).front(), "20s"});
      recording.commit();
    }
    enlarge(path);
    SQLite::Database shell(path, SQLite::OPEN_READWRITE);
    shell.exec("PRAGMA journal_mode = DELETE; PRAGMA wal_checkpoint(TRUNCATE)");
  }
};

// The one page of an index.
struct IndexPage {
  std::string index;
  std::streamoff at = 0;
  int size = 0;
};

// Of each index that has a second one, and of that.
std::vector<IndexPage> index_pages(const std::string& path) {
  SQLite::Database shell(path, SQLite::OPEN_READONLY);
  const auto size = shell.execAndGet("PRAGMA page_size").getInt();
  std::vector<IndexPage> pages;
  SQLite::Statement row(shell, R"(
      SELECT name, rootpage FROM sqlite_schema WHERE type = 'index' AND (name GLOB '*_again'
      OR name || '_again' IN (SELECT name FROM sqlite_schema)))");
  while (row.executeStep()) {
    pages.push_back({row.getColumn(0).getString(), (row.getColumn(1).getInt64() - 1) * size, size});
  }
  return pages;
}

// Changes the last letter of the name where it stands in the page, the `n`th time; false where it
// does not stand there so often.
bool change_letter(const std::string& path, const IndexPage& page, const std::string& name, int n) {
  std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
  std::string bytes(static_cast<std::size_t>(page.size), '\0');
  file.seekg(page.at).read(bytes.data(), page.size);
  std::size_t at = bytes.find(name);
  for (int i = 0; i < n && at != std::string::npos; ++i) at = bytes.find(name, at + 1);
  if (at == std::string::npos) return false;
  const auto last = static_cast<std::streamoff>(at + name.size() - 1);
  file.seekp(page.at + last).put(bytes[static_cast<std::size_t>(last)] == '7' ? '8' : '7');
  return true;
}

}  // namespace

TEST_CASE("a letter that changed in any index of a large file is no other answer", "[logbook]") {
  Large large;
  auto& trial = large.trial;
  const auto whole = trial.folder().file("whole");
  std::filesystem::copy_file(large.path, whole);
  const auto struck = [&] {
    SQLite::Database shell(whole, SQLite::OPEN_READONLY);
    return shell.execAndGet("SELECT id FROM entry WHERE line = 9").getString();
  }();
  // What asks for each name that lines are found by.
  const std::map<std::string, std::vector<std::string>> asked = {
      {"J01", {"compare J01", "show J01", "out J01/1", "tighten J01/1", "show J07"}},
      {"J02", {"compare J02", "show J02", "out J02/1"}},
      {"TW1", {"found J01/4 20s --wrench TW1", "wrench TW1 --serial 9"}},
      {struck, {"compare J01", "show J01", "wrench", "fluid", "item CL8 --what pins --count 2"}}};
  std::set<std::string> tried;
  const auto pages = index_pages(large.path);
  for (const auto& page : pages) {
    for (const auto& [name, commands] : asked) {
      for (int n = 0; n < 2; ++n) {
        std::filesystem::copy_file(whole, large.path,
                                   std::filesystem::copy_options::overwrite_existing);
        if (page.index.starts_with("strike") != (name == struck) ||
            !change_letter(large.path, page, name, n)) {
          break;
        }
        tried.insert(page.index);
        for (const auto& command : commands) {
          const auto refused = trial.run(command);
          INFO(page.index << ", " << command << ": " << refused.out << refused.err);
          CHECK(refused.code == 3);
          CHECK_THAT(refused.said(), ContainsSubstring("damaged"));
        }
      }
    }
  }
  CHECK(pages.size() == 26);
  CHECK(tried.size() == pages.size());
}

TEST_CASE("a letter that changed in a large file opens no hold point and loses no wrench or cover",
          "[logbook]") {
  Large large;
  auto& trial = large.trial;
  trial.done("hold-point HY --what 'hoist rigged'");
  trial.done("joint J09 --holds cover --size M8 --grade 8.8 --count 2 --covers J01");
  struct Change {
    std::string what;
    std::string word;  // that stands in the page
    IndexPage page;
  };
  std::vector<Change> changes;
  {
    SQLite::Database shell(large.path, SQLite::OPEN_READWRITE);
    shell.exec("PRAGMA journal_mode = DELETE");
    const auto size = shell.execAndGet("PRAGMA page_size").getInt();
    const auto add = [&](const char* table, const std::string& word) {
      SQLite::Statement root(shell, "SELECT rootpage FROM sqlite_schema WHERE name = ?");
      root.bind(1, table);
      REQUIRE(root.executeStep());
      changes.push_back({table, word, {table, (root.getColumn(0).getInt64() - 1) * size, size}});
    };
    for (const auto* which : {"SELECT entry_id FROM hold_point WHERE code = 'HY'",
                              "SELECT entry_id FROM wrench", "SELECT entry_id FROM joint_covers"}) {
      add("sqlite_autoindex_entry_1", shell.execAndGet(which).getString());
    }
    add("hold_point", shell.execAndGet("SELECT max(entry_id) FROM hold_point").getString());
    add("wrench", shell.execAndGet("SELECT entry_id FROM wrench").getString());
    add("joint_covers", shell.execAndGet("SELECT entry_id FROM joint_covers").getString());
    add("joint_covers", "J01");
  }
  const auto whole = trial.folder().file("whole");
  std::filesystem::copy_file(large.path, whole);
  for (const auto& change : changes) {
    std::filesystem::copy_file(whole, large.path,
                               std::filesystem::copy_options::overwrite_existing);
    REQUIRE(change_letter(large.path, change.page, change.word, 0));
    const auto refused = trial.run("out J01/1");
    INFO(change.what << ", " << change.word << ": " << refused.out << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("go back to a copy"));
  }
}

TEST_CASE("a large file that is whole is answered out of", "[logbook]") {
  Large large;
  for (const auto* command : {"compare J01", "show J01", "show J07", "show J02"}) {
    CHECK(large.trial.run(command).code <= 1);
  }
  CHECK(large.trial.run("out P99/1").code == 1);
  large.trial.done("wrench TW77 --range '1..20 N·m' --graduation '1 N·m'");
  large.trial.done("strike 10 --why 'not so either'");
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
