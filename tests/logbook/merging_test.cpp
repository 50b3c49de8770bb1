// Copies of one logbook that grew apart become one again: nothing is lost, nothing is decided by
// the order in which they meet.

#include "logbook/merging.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <random>

#include "audit/audit.h"
#include "finding/survey.h"
#include "logbook/chain_check.h"
#include "logbook/logbook_error.h"
#include "logbook/verification.h"
#include "screen/audit_answer.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/random_logbook.h"
#include "support/temporary_folder.h"
#include "support/trial.h"
#include "support/whole_copy.h"

namespace merging_test {

namespace {

namespace fs = std::filesystem;

const logbook::MergeProgress kUnwatched{[](std::string_view, std::size_t) {}, [] {}};

logbook::Merged merge(const std::string& path, const std::string& copy) {
  auto logbook = logbook::Logbook::open_to_write(path);
  logbook::Merging merging(logbook, copy, kUnwatched);
  merging.commit();
  return merging.merged();
}

std::string exported(const std::string& path) {
  const auto logbook = logbook::Logbook::open_to_read(path);
  return exchange::write_logbook_json(
      copy_of(logbook), [&](const std::string& sha256) { return logbook.photograph_with(sha256); });
}

std::string audited(const std::string& path) {
  const auto job = logbook::Logbook::open_to_read(path).job();
  const auto survey = finding::survey(job);
  const auto now = record::read_moment("2026-07-01T08:00:00Z");
  return screen::audit_json(audit::run({job, survey, now}));
}

const std::array<std::string, 3> kDevices = {"00000000-0000-4000-8000-00000000000a",
                                             "00000000-0000-4000-8000-00000000000b",
                                             "00000000-0000-4000-8000-00000000000c"};

// Three copies of a random logbook that went on apart, for some sittings each; at times one takes
// over what another has, or a device writes in two of them.
class ThreeCopies {
 public:
  explicit ThreeCopies(unsigned seed) : random_(seed) {
    make_random_logbook(copies[0], seed);
    fs::copy_file(copies[0], copies[1]);
    fs::copy_file(copies[0], copies[2]);
    auto now = record::read_moment("2026-06-02T08:00:00Z");
    for (int sitting = 0; sitting < 9; ++sitting) {
      now += std::chrono::minutes(number(1, 90));
      const auto at = static_cast<std::size_t>(number(0, 2));
      const auto device = number(0, 9) == 0 ? std::size_t{0} : at;
      go_on_at_random(copies[at], static_cast<unsigned>(random_()), kDevices[device], now);
      if (number(0, 5) == 0) merge(copies[at], copies[(at + 1) % 3]);
    }
  }

  // Another copy of one of them, under its own name.
  std::string another(std::size_t of) {
    const auto path = folder_.file(fmt::format("another-{}.bolts", ++others_));
    fs::copy_file(copies[of], path);
    return path;
  }

 private:
  TemporaryFolder folder_;
  std::mt19937 random_;
  int others_ = 0;

  int number(int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random_);
  }

 public:
  std::array<std::string, 3> copies = {folder_.file("a.bolts"), folder_.file("b.bolts"),
                                       folder_.file("c.bolts")};
};

// A logbook of four lines and a copy of it on a phone, where LM writes.
class TwoCopies {
 public:
  TwoCopies()
      : laptop(trial.folder().file("gb1.bolts")), phone(trial.folder().file("phone.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = laptop;
    trial.done("start " + laptop + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m' --source 'GB-1 p. "
        "3'");
    fs::copy_file(laptop, phone);
  }
  void on_laptop(const std::string& command) {
    trial.device = "00000000-0000-4000-8000-000000000001";
    trial.done(command + " --by KB --log " + laptop);
  }
  void on_phone(const std::string& command) {
    trial.device = "00000000-0000-4000-8000-000000000002";
    trial.done(command + " --by LM --log " + phone);
  }
  Outcome merged() { return trial.run("merge " + phone); }

  Trial trial;
  std::string laptop;
  std::string phone;
};

record::ChainCheck checked(const std::string& path, const std::vector<std::string>& sought = {}) {
  SQLite::Database shell(path, SQLite::OPEN_READONLY);
  return logbook::check_chain(shell, sought);
}

}  // namespace

TEST_CASE("three copies merged in any order, and twice, are one logbook to the byte",
          "[logbook][slow]") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    INFO("seed " << seed);
    ThreeCopies three(seed);
    std::array<std::size_t, 3> order = {0, 1, 2};
    std::string one;
    std::string one_audit;
    do {
      const auto whole = three.another(order[0]);
      merge(whole, three.copies[order[1]]);
      merge(whole, three.copies[order[2]]);
      const auto copy = exported(whole);
      if (one.empty()) one = copy;
      CHECK(copy == one);
      const auto audit = audited(whole);
      if (one_audit.empty()) one_audit = audit;
      CHECK(audit == one_audit);
      CHECK(logbook::verify(whole).fits());
      // What is merged already, into the last of the three.
      const auto two_ways = three.another(order[2]);
      merge(two_ways, whole);
      CHECK(exported(two_ways) == one);
      // Once more: it is the same logbook in every order, so one of them is enough.
      if (!std::ranges::is_sorted(order)) continue;
      for (const auto& again : three.copies) CHECK(merge(whole, again).new_lines.empty());
      CHECK(exported(whole) == one);
    } while (std::next_permutation(order.begin(), order.end()));
  }
}

TEST_CASE("a merge loses no line, changes none and takes none for another", "[logbook][slow]") {
  for (unsigned seed = 101; seed <= 108; ++seed) {
    INFO("seed " << seed);
    ThreeCopies three(seed);
    const auto whole = three.another(0);
    std::map<std::string, std::string> lines;  // by id, without its number
    for (const auto& path : three.copies) {
      const auto copy = nlohmann::json::parse(exported(path));
      for (auto line : copy["lines"]) {
        line.erase("line");
        line.erase("struck");  // may be in another copy
        const auto id = line["id"].get<std::string>();
        const auto [known, is_new] = lines.try_emplace(id, line.dump());
        if (!is_new) CHECK(known->second == line.dump());
      }
    }
    merge(whole, three.copies[1]);
    merge(whole, three.copies[2]);
    const auto merged = nlohmann::json::parse(exported(whole))["lines"];
    CHECK(merged.size() == lines.size());
    std::int64_t number = 0;
    auto expected = lines.begin();  // rising by id, as the lines are
    for (auto line : merged) {
      CHECK(line["line"] == ++number);
      line.erase("line");
      line.erase("struck");
      REQUIRE(expected != lines.end());
      CHECK(line.dump() == expected->second);
      ++expected;
    }
  }
}

TEST_CASE("what was merged is gone on with, and goes apart and together again", "[logbook][slow]") {
  for (unsigned seed = 201; seed <= 206; ++seed) {
    INFO("seed " << seed);
    ThreeCopies three(seed);
    auto now = record::read_moment("2026-06-20T08:00:00Z");
    for (unsigned round = 0; round < 3; ++round) {
      for (const auto from : {1U, 2U}) merge(three.copies[0], three.copies[from]);
      for (const auto into : {1U, 2U}) {
        merge(three.copies[into], three.copies[0]);
        CHECK(exported(three.copies[into]) == exported(three.copies[0]));
      }
      for (std::size_t i = 0; i < 3; ++i) {
        now += std::chrono::minutes(7);
        go_on_at_random(three.copies[i], seed * 10 + round, kDevices[i], now);
        const auto check = checked(three.copies[i]);
        CHECK(check.misfits.empty());
        CHECK(check.ends.size() == 1);  // the line that was written names all
      }
    }
  }
}

TEST_CASE("after a merge the log has two ends, and the next line binds both", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  two.on_phone("out J06/3");
  CHECK(two.merged().code == 0);
  auto check = checked(two.laptop);
  CHECK(check.misfits.empty());
  REQUIRE(check.ends.size() == 2);
  CHECK(check.ends[0].line == 6);
  CHECK(check.ends[1].line == 7);
  const auto text = two.trial.run("verify").told();
  CHECK_THAT(text, ContainsSubstring("it ends 2 times: line 6, hash "));
  two.on_laptop("out J06/4");
  check = checked(two.laptop);
  CHECK(check.misfits.empty());
  REQUIRE(check.ends.size() == 1);
  CHECK(check.ends[0].line == 8);
  SQLite::Database shell(two.laptop, SQLite::OPEN_READONLY);
  CHECK(shell
            .execAndGet("SELECT count(*) FROM line_hash h JOIN line_hash j ON instr(j.file_before, "
                        "h.hash) > 0 WHERE j.entry_id = (SELECT max(id) FROM entry)")
            .getInt() == 2);
}

TEST_CASE("the shell leaves the ends of merged copies as they are", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  two.on_phone("out J06/3");
  CHECK(two.merged().code == 0);
  {
    SQLite::Database shell(two.laptop, SQLite::OPEN_READWRITE);
    // An end, what comes before one, and the last line.
    for (const int line : {6, 5, 2, 7}) {
      INFO("line " << line);
      CHECK_THROWS_WITH(
          shell.exec(fmt::format(
              "INSERT OR REPLACE INTO chain_end SELECT id FROM entry WHERE line = {}", line)),
          ContainsSubstring("follow from the hashes"));
    }
    CHECK_THROWS_WITH(shell.exec("DELETE FROM chain_end"),
                      ContainsSubstring("follow from the hashes"));
    CHECK_THROWS_WITH(shell.exec("UPDATE chain_end SET line_id = line_id"),
                      ContainsSubstring("follow from the hashes"));
    CHECK(shell.execAndGet("SELECT count(*) FROM chain_end").getInt() == 1);
  }
  // The program takes them away with the line that names them, and keeps those of the next merge.
  two.on_laptop("out J06/4");
  CHECK(SQLite::Database(two.laptop).execAndGet("SELECT count(*) FROM chain_end").getInt() == 0);
  two.on_phone("fluid oil --drained '1 L'");
  CHECK(two.merged().code == 0);
  CHECK(SQLite::Database(two.laptop).execAndGet("SELECT count(*) FROM chain_end").getInt() == 1);
  CHECK(logbook::verify(two.laptop).fits());
}

TEST_CASE("an end that is taken out, put in or denied is found", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  CHECK(two.merged().code == 0);
  using Fault = record::ChainCheck::Fault;
  const auto after = [&](const std::string& sql) {
    SQLite::Database shell(two.laptop, SQLite::OPEN_READWRITE);
    shell.exec("PRAGMA foreign_keys = OFF");
    for (const auto* guarded : {"entry", "removal", "removal_position", "line_hash", "chain_end"}) {
      shell.exec(fmt::format("DROP TRIGGER {}_never_removed", guarded));
    }
    shell.exec("DROP TRIGGER entry_never_changed; DROP TRIGGER chain_end_never_added");
    const SQLite::Transaction undone(shell);
    shell.exec(sql);
    return logbook::check_chain(shell).misfits;
  };
  const auto fresh = two.laptop + ".fresh";
  fs::copy_file(two.laptop, fresh);
  const auto only = [&](const std::string& sql) {
    fs::copy_file(fresh, two.laptop, fs::copy_options::overwrite_existing);
    return after(sql);
  };
  const auto denied = only("DELETE FROM chain_end");
  REQUIRE(denied.size() == 1);
  CHECK(denied.front().fault == Fault::NotAnEnd);
  CHECK(denied.front().line == 5);
  const auto another = only("INSERT INTO chain_end SELECT id FROM entry WHERE line = 2");
  REQUIRE(another.size() == 1);
  CHECK(another.front().fault == Fault::NotAnEnd);
  const auto taken_out = only(R"(
      DELETE FROM removal_position WHERE entry_id = (SELECT id FROM entry WHERE line = 5);
      DELETE FROM removal WHERE entry_id = (SELECT id FROM entry WHERE line = 5);
      DELETE FROM line_hash WHERE entry_id = (SELECT id FROM entry WHERE line = 5);
      DELETE FROM entry WHERE line = 5;
      UPDATE entry SET line = 5 WHERE line = 6)");
  REQUIRE_FALSE(taken_out.empty());
}

TEST_CASE("a hash that was printed before the merge is found after it, and its lines",
          "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  two.on_laptop("out J06/3");
  const auto printed = two.trial.run("verify --json").json()["last"]["hash"].get<std::string>();
  CHECK(two.merged().code == 0);
  const auto same = two.trial.done("verify --against " + printed);
  CHECK_THAT(same.told(),
             ContainsSubstring("it ended with line 6, which is line 7 now, since 1 line "
                               "of merged copies stands before it"));
  CHECK_THAT(two.trial.done("verify --against " + printed + " --line 5").told(),
             ContainsSubstring("Its line 5 is line 6 here."));
  CHECK_THAT(two.trial.done("verify --against " + printed + " --line 4").told(),
             ContainsSubstring("Its line 4 is line 4 here."));
  const auto none = two.trial.run("verify --against " + printed + " --line 9");
  CHECK(none.code == 1);
  CHECK_THAT(none.told(), ContainsSubstring("It had no line 9."));
  CHECK(two.trial.run("verify --line 5").code == 2);
  // A page that was printed when there were two ends bears both hashes.
  const auto page = two.trial.done("sheet").out;
  const auto at = page.find("hash ") + 5;
  const auto both = page.substr(at, page.find_first_of("<\"", at) - at);
  CHECK_THAT(both, ContainsSubstring(" and "));
  two.on_laptop("out J06/4");
  CHECK_THAT(two.trial.done("verify --against '" + both + "'").told(),
             ContainsSubstring("is contained: it ended with line 7."));
}

TEST_CASE("copies that were brought up to date apart give a line one hash", "[logbook]") {
  Trial trial;
  const auto here = trial.folder().file("here.bolts");
  const auto there = trial.folder().file("there.bolts");
  for (const auto& path : {here, there}) {
    fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", path);
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  }
  trial.done("fluid oil --drained '1 L' --log " + here);
  trial.now += std::chrono::hours(50);
  trial.device = kDevices[1];
  trial.done("fluid oil --drained '2 L' --log " + there);
  const auto made = trial.done("merge " + there + " --log " + here);
  CHECK_THAT(made.told(), ContainsSubstring("1 line taken over from"));
  CHECK(logbook::verify(here).fits());
  // One that nobody brought up to date is read as if it had been, and left as it is.
  const auto old = trial.folder().file("old.bolts");
  fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", old);
  const auto before = content_of(old);
  CHECK_THAT(trial.done("merge " + old + " --log " + here).told(),
             ContainsSubstring("nothing to take over"));
  CHECK(content_of(old) == before);
}

TEST_CASE("the copy that is merged is never changed", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  const auto before = content_of(two.phone);
  CHECK(two.merged().code == 0);
  CHECK(content_of(two.phone) == before);
  CHECK_FALSE(fs::exists(two.phone + "-wal"));
  CHECK_FALSE(fs::exists(two.phone + "-shm"));
}

TEST_CASE("without a commit a merge leaves nothing", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  const auto before = exported(two.laptop);
  {
    auto logbook = logbook::Logbook::open_to_write(two.laptop);
    const logbook::Merging merging(logbook, two.phone, kUnwatched);
    CHECK(merging.merged().new_lines == std::vector<std::int64_t>{5});
    CHECK(logbook.job().removals.size() == 2);
  }
  CHECK(exported(two.laptop) == before);
  CHECK(logbook::verify(two.laptop).fits());
}

TEST_CASE("what is no copy of this logbook is not merged", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  const auto before = content_of(two.laptop);
  SECTION("itself, by whatever name") {
    CHECK(two.trial.run("merge " + two.laptop).code == 2);
    fs::create_symlink(two.laptop, two.laptop + ".link");
    const auto itself = two.trial.run("merge " + two.laptop + ".link");
    CHECK(itself.code == 2);
    CHECK_THAT(itself.said(), ContainsSubstring("is this logbook itself"));
  }
  SECTION("another logbook") {
    const auto other = two.trial.folder().file("other.bolts");
    two.trial.done("start " + other + " --machine GB-2");
    const auto refused = two.trial.run("merge " + other);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(),
               ContainsSubstring("is another logbook: \"GB-2\", started 2026-06-01"));
  }
  SECTION("no logbook, or none at all") {
    const auto text = two.trial.folder().file("text.bolts");
    std::ofstream(text) << std::string(5000, 'x');
    const auto refused = two.trial.run("merge " + text);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("is no logbook of boltwitness"));
    CHECK(two.trial.run("merge " + two.trial.folder().file("gone.bolts")).code == 3);
    CHECK(two.trial.run("merge " + two.trial.folder().path().string()).code == 3);
  }
  SECTION("one of a later version") {
    SQLite::Database(two.phone, SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 999");
    const auto refused = two.trial.run("merge " + two.phone);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("written by a later version"));
  }
  SECTION("one that was changed behind the program") {
    {
      SQLite::Database shell(two.phone, SQLite::OPEN_READWRITE);
      const auto text =
          shell.execAndGet("SELECT sql FROM sqlite_schema WHERE name = 'entry_never_changed'")
              .getString();
      shell.exec("DROP TRIGGER entry_never_changed");
      shell.exec("UPDATE entry SET by_whom = 'XX' WHERE line = 5");
      shell.exec(text);
    }
    const auto refused = two.trial.run("merge " + two.phone);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("is not as boltwitness wrote it, so nothing was "
                                                 "taken from it"));
  }
  CHECK(content_of(two.laptop) == before);
}

TEST_CASE("a line that cannot be read comes along where it is struck", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  // Its bag is no text that anybody reads, its hash right.
  forge_last(two.phone, R"(
      UPDATE removal SET bag = char(155) WHERE entry_id = (SELECT id FROM entry WHERE line = 5))");
  two.on_laptop("out J06/2");  // so that the copy's line 5 is another here
  const auto refused = two.merged();
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(),
             ContainsSubstring("phone.bolts: its line 5 (removal) cannot be read: bag: ") &&
                 ContainsSubstring("strike that line there"));
  two.on_phone("strike 5 --why 'no bag'");
  const auto tells = [](const std::string& text, const std::string& first) {
    CHECK_THAT(text,
               ContainsSubstring(first) &&
                   ContainsSubstring("1 of them cannot be read; struck as it is, it counts") &&
                   ContainsSubstring("line 5 (removal): bag: ") &&
                   ContainsSubstring("\"backup\" copies: line 5 (removal): bag holds text") &&
                   ContainsSubstring("line 7: line 5 struck: no bag"));
  };
  const auto merge = "merge " + two.phone;
  const auto looked = two.trial.run(merge + " --check");
  tells(looked.told(), "2 lines would be taken over from");
  const auto json = two.trial.run(merge + " --check --json").json();
  REQUIRE(json["unreadable"].size() == 1);
  CHECK(json["unreadable"][0]["line"] == 5);
  CHECK(json["unreadable"][0]["struck"] == true);
  CHECK_THAT(json["no_copy_holds"].get<std::string>(),
             ContainsSubstring("line 5 (removal): bag holds text"));
  CHECK(json["lines"].size() == 1);
  const auto merged = two.merged();
  CHECK(merged.code == 0);
  tells(merged.told(), "2 lines taken over from");
  CHECK(logbook::verify(two.laptop).fits());
  CHECK(two.trial.run("compare").code <= 1);
  CHECK(two.trial.run("search bag").code <= 1);
  const auto exported = two.trial.run("export");
  CHECK(exported.code == 3);
  CHECK_THAT(exported.said(),
             ContainsSubstring("line 5 (removal): bag holds text with control characters"));
}

TEST_CASE("one id with two contents is refused and named", "[logbook]") {
  TwoCopies two;
  two.on_laptop("out J06/1");
  two.on_phone("out J06/2");
  // The phone's last line gets the id of the laptop's, with its hash made right again.
  const auto id = [&] {
    SQLite::Database laptop(two.laptop, SQLite::OPEN_READONLY);
    return laptop.execAndGet("SELECT id FROM entry WHERE line = 5").getString();
  }();
  std::string renamed;
  for (const auto* table : {"removal", "removal_position", "line_hash"}) {
    renamed += fmt::format(
        "UPDATE {} SET entry_id = '{}' WHERE entry_id = (SELECT id FROM entry WHERE line = 5);",
        table, id);
  }
  forge_last(two.phone, renamed + fmt::format("UPDATE entry SET id = '{}' WHERE line = 5", id));
  REQUIRE(logbook::verify(two.phone).fits());
  const auto before = content_of(two.laptop);
  const auto refused = two.merged();
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("line 5 here and line 5 of"));
  CHECK_THAT(refused.said(), ContainsSubstring("bear one id"));
  CHECK(content_of(two.laptop) == before);
}

TEST_CASE("both signatures are kept, and each end is signed", "[logbook]") {
  TwoCopies two;
  two.trial.environment["XDG_DATA_HOME"] = two.trial.folder().file("home");
  two.on_phone("out J06/1");
  two.on_phone("sign");
  two.on_laptop("out J06/2");
  two.on_laptop("sign");
  CHECK(two.merged().code == 0);
  CHECK_THAT(two.trial.done("verify").told(), ContainsSubstring("Signed up to line 5 by LM"));
  CHECK_THAT(two.trial.done("verify").told(),
             ContainsSubstring("Signed by KB") &&
                 ContainsSubstring("5 lines, the last of them line 6 here; not line 5"));
  CHECK(two.trial.run("sign").code == 1);  // both ends bear one of this key
  two.trial.environment["XDG_DATA_HOME"] = two.trial.folder().file("another-home");
  const auto both = two.trial.done("sign").told();
  CHECK_THAT(both, ContainsSubstring("up to line 5, hash "));
  CHECK_THAT(both, ContainsSubstring("and line 6, hash "));
  CHECK(logbook::verify(two.laptop).fits());
}

TEST_CASE("a merged logbook is exported and read in with both ends", "[logbook]") {
  TwoCopies two;
  two.on_phone("out J06/1");
  two.on_laptop("out J06/2");
  CHECK(two.merged().code == 0);
  const auto copy = two.trial.folder().file("copy.json");
  const auto made = two.trial.folder().file("made.bolts");
  two.trial.done("export --to " + copy);
  two.trial.done("import " + copy + " --log " + made);
  CHECK(exported(made) == exported(two.laptop));
  CHECK(checked(made).misfits.empty());
  CHECK(checked(made).ends.size() == 2);
}

}  // namespace merging_test
