// Every line is bound to those before it by a hash, and the schema lets nobody write one without.

#include "logbook/hash_chain.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "logbook/canonical_line.h"
#include "logbook/chain_check.h"
#include "logbook/digest.h"
#include "logbook/schema.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace hash_chain_test {

namespace {

namespace fs = std::filesystem;

// A logbook of three lines, open to the shell.
class Small {
 public:
  Small() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
    trial.done("out J01/1-2 --bag A1");
    shell = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE);
  }
  [[nodiscard]] record::ChainCheck check() const { return logbook::check_chain(*shell); }

  Trial trial;
  std::string path;
  std::unique_ptr<SQLite::Database> shell;
};

}  // namespace

TEST_CASE("a digest is that of the standard's examples", "[logbook]") {
  // Source: NIST, FIPS 180-4 example values for SHA-256 ("abc" and the message of 448 bits), from
  // memory; scripts/recompute_hashes holds the same against another implementation.
  CHECK(logbook::sha256("abc") ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(logbook::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("a line is one text, whatever the disk has of it", "[logbook]") {
  const Small small;
  const auto id = small.shell->execAndGet("SELECT id FROM entry WHERE line = 3").getString();
  // The columns that hold their default (no other length, no damaged thread) are not there.
  const auto expected = fmt::format(
      "entry\nby_whom t2:KB\ndevice t36:{0}\ndone_at t24:{2}\nentered_at t24:{2}\nid t36:{1}\n"
      "kind t7:removal\n"
      "removal\nbag t2:A1\nbroke t6:normal\njoint_code t3:J01\nmarked i1\nnote t0:\n"
      "other_grade t0:\nother_size t0:\n"
      "removal_position\nposition i1\nremoval_position\nposition i2\n",
      small.shell->execAndGet("SELECT device FROM entry WHERE line = 3").getString(), id,
      small.shell->execAndGet("SELECT done_at FROM entry WHERE line = 3").getString());
  logbook::CanonicalLines lines(*small.shell);
  CHECK(lines.of(id) == expected);
  std::string in_one_pass;
  lines.for_each([&](const auto& line) { in_one_pass = line.text; },
                 [](const std::string&, const std::string&) { FAIL("a row of no line"); });
  CHECK(in_one_pass == expected);
}

TEST_CASE("every line fits, and the next one is bound to the last", "[logbook]") {
  Small small;
  const auto check = small.check();
  CHECK(check.misfits.empty());
  CHECK(check.lines == 3);
  CHECK(check.later == 0);
  CHECK(check.last.hash == logbook::end_hashes(*small.shell).back());
  small.trial.done("out J01/3-4 --bag A1");
  CHECK(small.shell->execAndGet("SELECT file_before FROM line_hash ORDER BY entry_id DESC")
            .getString() == check.last.hash);
  CHECK(small.check().misfits.empty());
}

TEST_CASE("a line that is undone leaves nothing of its hash", "[logbook]") {
  Small small;
  const auto before = logbook::end_hashes(*small.shell).back();
  CHECK(small.trial.run("out J01/9").code != 0);
  CHECK(logbook::end_hashes(*small.shell).back() == before);
  CHECK(small.shell->execAndGet("SELECT count(*) FROM line_hash").getInt() == 3);
}

TEST_CASE("the lines of each device are a chain of their own", "[logbook]") {
  Small small;
  const auto of_line = [&](int line, const char* column) {
    return small.shell
        ->execAndGet(fmt::format("SELECT {} FROM line_hash JOIN entry ON id = entry_id "
                                 "WHERE line = {}",
                                 column, line))
        .getString();
  };
  // Another device writes line 4, the first one line 5.
  const auto other = "11111111-1111-4111-8111-111111111111";
  const auto id = "7fffffff-ffff-7fff-8fff-000000000004";
  {
    logbook::HashChain chain(*small.shell);
    SQLite::Transaction transaction(*small.shell);
    chain.open(id);
    small.shell->exec(
        fmt::format("INSERT INTO entry SELECT 4, '{0}', 'renewal', by_whom, done_at, entered_at, "
                    "'{1}' FROM entry "
                    "WHERE line = 3;"
                    "INSERT INTO renewal VALUES ('{0}', 'J01');"
                    "INSERT INTO renewal_position VALUES ('{0}', 4)",
                    id, other));
    chain.close(id, other, {"renewal", "renewal_position"});
    transaction.commit();
  }
  small.trial.done("out J01/3 --bag A1");
  CHECK(of_line(4, "device_before").empty());
  CHECK(of_line(4, "file_before") == of_line(3, "hash"));
  CHECK(of_line(5, "device_before") == of_line(3, "hash"));
  CHECK(of_line(5, "file_before") == of_line(4, "hash"));
  CHECK(small.check().misfits.empty());
}

TEST_CASE("a logbook from before there were hashes gets them, and says since when", "[logbook]") {
  Trial trial;
  const auto path = trial.folder().file("old.bolts");
  fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", path);
  fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  trial.done("fluid oil --drained '1 L' --log " + path);
  SQLite::Database shell(path, SQLite::OPEN_READONLY);
  const auto check = logbook::check_chain(shell);
  CHECK(check.misfits.empty());
  CHECK(check.lines > 100);
  CHECK(check.later == check.lines - 1);
  CHECK(check.last_later == check.lines - 1);
}

TEST_CASE("the shell writes no line, adds to none, and leaves kinds and ends as they are",
          "[logbook]") {
  const Small small;
  const std::string last = "(SELECT id FROM entry ORDER BY line DESC LIMIT 1)";
  const std::string next = "'7fffffff-ffff-7fff-8fff-000000000004'";
  const auto line = [](const std::string& number, const std::string& id, const char* kind) {
    return fmt::format(
        "INSERT INTO entry SELECT {}, {}, '{}', by_whom, done_at, entered_at, "
        "device FROM entry WHERE line = 3",
        number, id, kind);
  };
  const auto open = [](const std::string& id) {
    return fmt::format("INSERT INTO line_hash VALUES ({}, '', '', '', '');", id);
  };
  const std::vector<std::pair<std::string, std::string>> refused = {
      {line("4", next, "removal"), "with their hashes"},
      {open(next) + line("9223372036854775807", next, "removal"), "numbered one after the other"},
      {open(next) + line("5", next, "removal"), "numbered one after the other"},
      {open("'00000000-0000-7000-8000-000000000001'") +
           line("4", "'00000000-0000-7000-8000-000000000001'", "removal"),
       "ids rise from line to line"},
      {open("'ffffffff-ffff-7fff-bfff-ffffffffffff'") +
           line("4", "'ffffffff-ffff-7fff-bfff-ffffffffffff'", "removal"),
       "years before 10000"},
      {open(next) + line("4", next, "start"), "and never a later one"},
      {"INSERT INTO removal_position VALUES (" + last + ", 4)", "never after"},
      {"INSERT INTO renewal VALUES (" + last + ", 'J01')", "never after"},
      {"UPDATE line_hash SET given_later = 'x'", "never changed"},
      {"UPDATE line_hash SET hash = ''", "never changed"},
      {"DELETE FROM line_hash", "never removed"},
      {"INSERT OR REPLACE INTO line_hash VALUES (" + last + ", '', '', '', '')",
       "when the line is complete"},
      {"DELETE FROM entry_kind", "those of the program"},
      {"UPDATE entry_kind SET meaning = 'x'", "those of the program"},
      {"INSERT OR REPLACE INTO entry_kind VALUES ('removal', 'x')", "those of the program"},
      {"INSERT INTO entry_kind VALUES ('screw', 'x')", "those of the program"},
      {"INSERT OR IGNORE INTO entry_kind VALUES ('screw', 'x')", "those of the program"},
      {"INSERT INTO chain_end SELECT id FROM entry WHERE line = 2", "follow from the hashes"},
  };
  for (const auto& [sql, why] : refused) {
    INFO(sql);
    SQLite::Transaction transaction(*small.shell);
    CHECK_THROWS_WITH(small.shell->exec(sql), ContainsSubstring(why));
  }
  CHECK(small.check().misfits.empty());
}

TEST_CASE("a copy brings its hashes, and says so itself where it was changed", "[logbook]") {
  Trial trial;
  run_sample_job(trial);
  const auto copy = trial.folder().file("copy.json");
  trial.done("export --to " + copy);
  const auto text = content_of(copy);
  const auto made = trial.folder().file("made.bolts");

  SECTION("taken as it is") {
    trial.done("import " + copy + " --log " + made);
    SQLite::Database original(trial.environment["BOLTWITNESS_LOG"], SQLite::OPEN_READONLY);
    SQLite::Database restored(made, SQLite::OPEN_READONLY);
    CHECK(logbook::end_hashes(restored).back() == logbook::end_hashes(original).back());
    CHECK(logbook::check_chain(restored).misfits.empty());
  }
  SECTION("with a word changed in its fourth line") {
    auto changed = text;
    std::size_t line = 0;
    for (int i = 0; i < 4; ++i) line = changed.find("\n{", line + 1);
    const auto by = changed.find("\"by\":\"", line);
    changed.replace(by, 6, "\"by\":\"x");
    std::ofstream(copy) << changed;
    const auto refused = trial.run("import " + copy + " --log " + made);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("/lines/3/chain: line 4 does not fit its hash"));
    CHECK_FALSE(fs::exists(made));
  }
  SECTION("with a hash taken out") {
    auto changed = text;
    const auto at = changed.find(",\"chain\":");
    changed.erase(at, changed.find("}}", at) + 1 - at);
    std::ofstream(copy) << changed;
    const auto refused = trial.run("import " + copy + " --log " + made);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("/lines/0: \"chain\" is missing"));
  }
}

}  // namespace hash_chain_test
