// A file that was damaged, or made by somebody else, answers nothing wrongly and keeps nobody
// waiting: what does not fit is named by every command, with exit code 3 for who reads and who
// writes.

#include "logbook/soundness.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace soundness_test {

namespace {

namespace fs = std::filesystem;

// The most that can be wrong, for what is tried on many files.
const std::vector<std::string> kAnswers = {"status",   "audit",   "report",  "export",
                                           "sequence", "history", "show J06"};

// The sample job in one file, of which copies are altered.
class Copies {
 public:
  Copies() : bytes(sample_bytes()) {
    trial.now = record::read_moment("2026-06-01T08:00:00Z");
    altered = trial.folder().file("altered.bolts");
    trial.environment["BOLTWITNESS_LOG"] = altered;
    put(bytes);
  }

  // Made once.
  static const std::string& sample_bytes() {
    static const std::string made = [] {
      Trial sample;
      run_sample_job(sample);
      const auto path = sample.environment["BOLTWITNESS_LOG"];
      SQLite::Database(path, SQLite::OPEN_READWRITE).exec("PRAGMA wal_checkpoint(TRUNCATE)");
      return content_of(path);
    }();
    return made;
  }

  void put(const std::string& content) {
    for (const char* tail : {"-wal", "-shm", "-journal"}) fs::remove(altered + tail);
    std::ofstream(altered, std::ios::binary) << content;
  }
  void shell(const std::string& sql) {
    SQLite::Database database(altered, SQLite::OPEN_READWRITE);
    database.exec(sql);
  }
  std::string run_still(const std::string& command, int& code) {
    trial.now = record::read_moment("2026-06-01T08:00:00Z");
    const auto answer = trial.run(command);
    code = answer.code;
    return answer.out;
  }

  Trial trial;
  std::string altered;
  std::string bytes;
};

// Every command that looks something up, and one that writes, refuse with these words.
void refused_everywhere(Copies& copies, const std::string& words) {
  for (const auto* command : {"status", "export", "history", "out J06/1"}) {
    const auto answer = copies.trial.run(command);
    INFO(command << ": " << answer.err);
    CHECK(answer.code == 3);
    CHECK_THAT(answer.said(), ContainsSubstring(words));
  }
}

}  // namespace

TEST_CASE("a byte that changed anywhere changes no answer without a word", "[logbook][slow]") {
  Copies copies;
  std::vector<std::pair<std::string, int>> answers;
  for (const auto& command : kAnswers) {
    int code = 0;
    auto out = copies.run_still(command, code);
    answers.emplace_back(std::move(out), code);
  }
  std::mt19937 random(20261127);
  constexpr int kBytes = 60;
  int named = 0;
  for (int i = 0; i < kBytes; ++i) {
    const auto at = std::uniform_int_distribution<std::size_t>(0, copies.bytes.size() - 1)(random);
    auto bytes = copies.bytes;
    bytes[at] = static_cast<char>(
        bytes[at] ^ static_cast<char>(std::uniform_int_distribution<int>(1, 255)(random)));
    copies.put(bytes);
    bool is_named = false;
    for (std::size_t k = 0; k < kAnswers.size(); ++k) {
      int code = 0;
      const auto out = copies.run_still(kAnswers[k], code);
      is_named = is_named || code == 3;
      if (code == 3 || (code == answers[k].second && out == answers[k].first)) continue;
      INFO("byte " << at << ", " << kAnswers[k]);
      CHECK(code == 3);
    }
    named += is_named ? 1 : 0;
    const auto written =
        copies.trial.run("found J06/1 60s 70o --wrench TW2 --at 2026-06-01T07:00Z");
    INFO("byte " << at << ", " << written.err);
    CHECK(written.code <= 3);
    if (is_named) CHECK(written.code == 3);
  }
  CHECK(named > 10);
}

TEST_CASE("a line that was changed is named, and counts no more once it is struck", "[logbook]") {
  Copies copies;
  std::string trigger;
  std::string line;
  {
    SQLite::Database shell(copies.altered, SQLite::OPEN_READWRITE);
    trigger = shell.execAndGet("SELECT sql FROM sqlite_schema WHERE name = 'removal_never_changed'")
                  .getString();
    line = shell.execAndGet("SELECT line FROM entry WHERE id = (SELECT min(entry_id) FROM removal)")
               .getString();
    shell.exec(
        "DROP TRIGGER removal_never_changed; UPDATE removal SET note = 'another' "
        "WHERE entry_id = (SELECT min(entry_id) FROM removal)");
    shell.exec(trigger);
  }
  for (const auto* command : {"status", "report", "export", "out J06/1"}) {
    const auto refused = copies.trial.run(command);
    INFO(command << ": " << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(),
               ContainsSubstring("line " + line + " is not what was written") &&
                   ContainsSubstring("\"boltwitness strike " + line + " --why TEXT\""));
  }
  const auto shown = copies.trial.run("history --whole");
  CHECK(shown.code == 3);
  CHECK_THAT(shown.out, ContainsSubstring("another"));
  copies.trial.done("strike " + line + " --why 'changed behind the program'");
  CHECK(copies.trial.run("status").code <= 1);
  CHECK(copies.trial.run("history").code == 0);
  CHECK(copies.trial.run("verify").code == 1);
  CHECK(copies.trial.run("export").code == 3);  // no import would take it
}

TEST_CASE("whatever of the schema is not ours is refused before anything is read", "[logbook]") {
  Copies copies;
  const auto [sql, words] = GENERATE(table<const char*, const char*>(
      {{"CREATE TABLE mine (a)", "\"table mine\""},
       {"CREATE INDEX mine ON entry (by_whom)", "\"index mine\""},
       {"CREATE VIEW mine AS WITH RECURSIVE c(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM c) "
        "SELECT x FROM c",
        "\"view mine\""},
       {"CREATE TRIGGER halve AFTER INSERT ON setting_reading BEGIN SELECT 1; END",
        "\"trigger halve\""},
       {"CREATE VIRTUAL TABLE mine USING fts5 (a)", "\"table mine"},
       {"CREATE TABLE mine (a, b AS (a || a))", "\"table mine\""},
       {"DROP VIEW found_bracket; CREATE VIEW found_bracket AS SELECT 1", "\"view found_bracket\""},
       {"DROP VIEW settled", "\"view settled\" was taken out"},
       {"DROP INDEX joint_by_code; CREATE INDEX joint_by_code ON joint (code COLLATE BINARY)",
        "\"index joint_by_code\""},
       {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
        "'setting > 0', 'setting > -1') WHERE name = 'pull'",
        "\"table pull\" in this file was altered"},
       {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
        "'reason    TEXT NOT NULL', 'reason    TEXT') WHERE name = 'strike'",
        "\"table strike\" in this file was altered"}}));
  INFO(sql);
  copies.shell(sql);
  refused_everywhere(copies, words);
}

TEST_CASE("a trigger or an index that is missing keeps nobody from reading, but from writing",
          "[logbook]") {
  Copies copies;
  const auto* sql = GENERATE("DROP TRIGGER entry_never_removed", "DROP INDEX finding_by_position");
  copies.shell(sql);
  CHECK(copies.trial.run("status").code <= 1);
  const auto refused = copies.trial.run("out J06/1");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("nothing was written to it"));
}

TEST_CASE("statistics that SQLite keeps are nobody's harm", "[logbook]") {
  Copies copies;
  copies.shell("ANALYZE");
  CHECK(copies.trial.run("status").code <= 1);
  copies.trial.done("found J06/1 60s 70o --wrench TW2");
}

TEST_CASE("an index that does not say what its table says is found", "[logbook]") {
  Copies copies;
  copies.shell(
      "PRAGMA writable_schema = ON; CREATE TABLE t (joint_code COLLATE NOCASE, entry_id);"
      "CREATE INDEX other ON t (joint_code, entry_id);"
      "UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = "
      "'other')"
      " WHERE name = 'removal_by_joint';"
      "DELETE FROM sqlite_schema WHERE name IN ('t', 'other')");
  refused_everywhere(copies, "damaged");
}

TEST_CASE("values that a forger put right hashes on are refused all the same", "[logbook]") {
  Copies copies;
  const auto [sql, words] = GENERATE(table<const char*, const char*>(
      {{"UPDATE setting_reading SET setting = setting / 2 WHERE entry_id = "
        "(SELECT min(entry_id) FROM finding)",
        "by the rest of its line"},
       {"UPDATE joint SET count = 10 WHERE layout LIKE 'circle%' AND entry_id = "
        "(SELECT min(entry_id) FROM joint); UPDATE joint SET layout = 'rectangle 2x8' WHERE "
        "entry_id = (SELECT min(entry_id) FROM joint)",
        "cannot be read"},
       {"UPDATE setting_reading SET setting = 9e999 WHERE entry_id = "
        "(SELECT min(entry_id) FROM finding)",
        "cannot be read"},
       {"UPDATE joint SET holds = printf('%.600000c', 'a') WHERE entry_id = "
        "(SELECT min(entry_id) FROM joint)",
        "cannot be read"},
       {"UPDATE joint SET holds = char(155) || '2J' WHERE entry_id = "
        "(SELECT min(entry_id) FROM joint)",
        "cannot be read"},
       {"UPDATE entry SET line = 9223372036854775807 WHERE line = (SELECT max(line) FROM entry)",
        "before line 9223372036854775807"},
       {"UPDATE entry SET line = -1 WHERE line = 1", "the first line"}}));
  INFO(sql);
  forge(copies.altered, sql);
  for (const auto* command : {"status", "audit", "report", "export", "sequence", "compare"}) {
    const auto answer = copies.trial.run(command);
    INFO(command << ": " << answer.err);
    CHECK(answer.code == 3);
    CHECK_THAT(answer.said(), ContainsSubstring(words));
  }
  const auto shown = copies.trial.run("history");
  CHECK(shown.code == 3);
}

namespace {

std::int64_t lines_in(const std::string& path) {
  return SQLite::Database(path).execAndGet("SELECT count(*) FROM entry").getInt64();
}

// Seven lines: the first, a joint, and five that came out.
class FivePositions {
 public:
  FivePositions() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 9");
    for (int i = 1; i <= 5; ++i) trial.done("out J01/" + std::to_string(i) + " --bag A1");
  }
  [[nodiscard]] std::int64_t lines() const { return lines_in(path); }

  Trial trial;
  std::string path;
};

}  // namespace

TEST_CASE("a strike is written into an altered logbook where it is of what was altered",
          "[logbook]") {
  FivePositions job;
  alter(job.path, "UPDATE entry SET by_whom = 'Eve' WHERE line IN (4, 6)");
  const auto refused = job.trial.run("strike 5 --why slip");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("line 4 is not what was written"));
  CHECK(job.trial.run("strike 4 5 --why slip").code == 3);
  CHECK(job.lines() == 7);
  job.trial.done("strike 6 --why 'changed behind the program'");
  CHECK(job.trial.run("strike 5 --why slip").code == 3);
  job.trial.done("strike 4 --why 'changed behind the program'");
  job.trial.done("strike 5 --why slip");
  CHECK(job.trial.run("status").code <= 1);
  CHECK(job.lines() == 10);
}

TEST_CASE("no strike takes the number of a line that was taken out", "[logbook]") {
  FivePositions job;
  const auto take_out = [](int line) {
    std::string sql;
    for (const auto* table : {"removal_position", "removal", "line_hash"}) {
      sql += fmt::format("DELETE FROM {} WHERE entry_id = (SELECT id FROM entry WHERE line = {});",
                         table, line);
    }
    return sql + fmt::format("DELETE FROM entry WHERE line = {};", line);
  };
  const auto sql =
      GENERATE_COPY(std::string("DELETE FROM entry WHERE line = 7"), take_out(5),
                    take_out(5) +
                        "UPDATE entry SET line = 5 WHERE line = 6; "
                        "UPDATE entry SET line = 6 WHERE line = 7",
                    std::string("UPDATE entry SET by_whom = 'Eve' WHERE line = 6; ") + take_out(4));
  INFO(sql);
  alter(job.path, sql);
  const auto before = job.lines();
  for (const auto* command : {"strike 3 --why slip", "strike 5 --why slip", "strike 6 --why slip",
                              "out J01/8", "item CL1 --what clips --count 3"}) {
    INFO(command);
    const auto refused = job.trial.run(command);
    CHECK(refused.code != 0);
    CHECK((refused.code == 3 || refused.said().find("there is no line") != std::string::npos));
  }
  CHECK(job.trial.run("strike 3 --why slip").code == 3);
  CHECK(job.lines() == before);
}

TEST_CASE("a line that lost what it said keeps everybody from writing, and verify names it",
          "[logbook][slow]") {
  Copies copies;
  const std::string tables = GENERATE(
      as<std::string>(), "logbook_start",
      "joint_covers joint_after "
      "joint_recheck joint",
      "joint", "specification", "specification_position specification", "wrench",
      "removal_position", "removal", "removal_position removal", "setting_reading", "finding",
      "setting_reading finding", "tightening_position", "tightening", "stripe_position",
      "stripe_position stripe", "renewal_position", "fluid", "item", "hold_point_step", "strike");
  INFO(tables);
  std::string sql;
  std::istringstream each(tables);
  for (std::string table; each >> table;) sql += "DELETE FROM " + table + ";";
  forge(copies.altered, sql);
  const auto verified = copies.trial.run("verify");
  CHECK(verified.code == 1);
  CHECK_THAT(verified.out, ContainsSubstring("has lost what it said"));
  CHECK_THAT(copies.trial.run("verify --json").out, ContainsSubstring("\"no-content\""));
  const auto lines = lines_in(copies.altered);
  for (const auto* command : {"status", "out J06/1", "item CL9 --what clips --count 3", "sign",
                              "joint J99 --holds lid --size M6 --count 4 --grade 8.8"}) {
    const auto refused = copies.trial.run(command);
    INFO(command << ": " << refused.err);
    CHECK(refused.code != 0);
  }
  CHECK(lines_in(copies.altered) == lines);
  CHECK(copies.trial.run("item CL9 --what clips --count 3").code == 3);
}

TEST_CASE("rows of another kind than their line's are no content of it", "[logbook]") {
  FivePositions job;
  forge(job.path,
        "INSERT INTO renewal SELECT id, 'J01' FROM entry WHERE line = 4;"
        "INSERT INTO renewal_position SELECT id, 2 FROM entry WHERE line = 4");
  CHECK(job.trial.run("verify").code == 1);
  CHECK(job.trial.run("item CL1 --what clips --count 3").code == 3);
  job.trial.done("strike 4 --why 'altered'");
  job.trial.done("item CL1 --what clips --count 3");
}

}  // namespace soundness_test
