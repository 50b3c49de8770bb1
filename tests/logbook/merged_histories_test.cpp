// Three people go on with copies of one logbook by the commands themselves, deciding on what the
// audit gives them, correcting, signing, with clocks that go back, one of them on an older version:
// whatever came of it is one logbook again, and the order in which the copies meet decides nothing.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <random>

#include "logbook/merging.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/pictures.h"
#include "support/places.h"
#include "support/torture.h"
#include "support/trial.h"

namespace merged_histories_test {

namespace {

namespace fs = std::filesystem;

constexpr std::array<const char*, 3> kPeople = {"KB", "LM", "MO"};

// Every row of every table, in an order of their own: what two logbooks of one content share, even
// where a line that cannot be read keeps them from being exported.
std::string rows_of(const std::string& path) {
  SQLite::Database file(path, SQLite::OPEN_READONLY);
  std::vector<std::string> tables;
  SQLite::Statement named(file,
                          "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (named.executeStep()) tables.push_back(named.getColumn(0).getString());
  std::string all;
  for (const auto& table : tables) {
    std::vector<std::string> rows;
    SQLite::Statement row(file, "SELECT * FROM \"" + table + "\"");
    while (row.executeStep()) {
      std::string cells = table;
      for (int column = 0; column < row.getColumnCount(); ++column) {
        const auto cell = row.getColumn(column);
        cells += fmt::format("|{}:{}", cell.getType(), cell.getString());
      }
      rows.push_back(cells);
    }
    std::ranges::sort(rows);
    for (const auto& each : rows) all += each + "\n";
  }
  return all;
}

logbook::Merged merge(const std::string& path, const std::string& copy) {
  auto logbook = logbook::Logbook::open_to_write(path);
  logbook::Merging merging(logbook, copy, {[](std::string_view, std::size_t) {}, [] {}});
  merging.commit();
  return merging.merged();
}

class ThreePeople {
 public:
  explicit ThreePeople(unsigned seed) : random_(seed) {
    const bool is_old = seed % 5 == 0;
    if (is_old) {
      // Written by an earlier version; the third machine brings its copy up to date by itself, or
      // never writes to it.
      const auto* name = seed % 4 == 0   ? "/version_7.bolts"
                         : seed % 3 == 0 ? "/version_17.bolts"
                                         : "/version_1.bolts";
      for (const auto& copy : copies) {
        fs::copy_file(std::string(BOLTWITNESS_SAVED) + name, copy,
                      fs::copy_options::overwrite_existing);
      }
      writers_ = seed % 2 == 0 ? 2 : 3;
      did("an older copy");
    } else {
      at(0, "start " + copies[0] + " --machine 'pump 4'");
    }
    std::ofstream(file("mark.png"), std::ios::binary) << plain_png(3, 2, 120);
    at(0, "wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m' --calibrated 2026-03-02");
    for (const std::string code : {"K01", "K02", "K03"}) {
      at(0, "joint " + code +
                " --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m' --source 'drawing "
                "7' --condition dry");
    }
    // K01 is back together, K02 torn, K03 out.
    for (const auto* command :
         {"hold-point HV --what dead --before K02", "out K01/1-4", "tighten K01/1-4",
          "tighten K01/1-4", "tighten K01/1-4", "out K02/1 --damaged-thread hole --note greasy",
          "out K03/1-4", "item C1 --what clips --count 40"}) {
      at(0, command);
    }
    for (std::size_t i = 1; i < (is_old ? 2U : 3U); ++i) {
      fs::copy_file(copies[0], copies[i], fs::copy_options::overwrite_existing);
    }
    for (int deed = 0; deed < 30; ++deed) {
      const auto who = static_cast<std::size_t>(number(0, writers_ - 1));
      clocks_[who] += std::chrono::minutes(number(1, 50));
      if (number(0, 11) == 0) {
        clocks_[who] -= std::chrono::hours(number(2, 60));
        did("a clock that goes back");
      }
      something(who);
    }
  }

  // Another copy of one of them, under its own name.
  std::string another(std::size_t of) {
    const auto path = file(fmt::format("another-{}.bolts", ++others_));
    fs::copy_file(copies[of], path);
    return path;
  }

  // A command on a logbook by nobody in particular, long after.
  Outcome later(const std::string& command, const std::string& log) {
    trial_.now = record::read_moment("2026-09-01T08:00:00Z");
    return trial_.run(command + " --log " + log);
  }

  // What was done, and how often it was taken.
  std::map<std::string, int> taken;

 private:
  Trial trial_;
  std::mt19937 random_;
  int writers_ = 3;
  int others_ = 0;
  std::array<record::Moment, 3> clocks_ = {record::read_moment("2026-06-02T08:00:00Z"),
                                           record::read_moment("2026-06-02T08:00:30Z"),
                                           record::read_moment("2026-06-02T08:01:00Z")};

 public:
  std::array<std::string, 3> copies = {file("a.bolts"), file("b.bolts"), file("c.bolts")};

 private:
  [[nodiscard]] std::string file(const std::string& name) const {
    return trial_.folder().file(name);
  }
  int number(int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random_);
  }
  template <class Value>
  Value one_of(const std::vector<Value>& values) {
    return values[static_cast<std::size_t>(number(0, static_cast<int>(values.size()) - 1))];
  }
  void did(const std::string& what) { ++taken[what]; }

  // This person types it at the own copy. It may be refused; the logbook is never in trouble.
  Outcome at(std::size_t who, const std::string& command) {
    trial_.device.back() = static_cast<char>('a' + who);
    trial_.environment["XDG_DATA_HOME"] = file(fmt::format("home-{}", who));
    trial_.now = clocks_[who];
    auto outcome = trial_.run(command + " --by " + kPeople[who] +
                              (command.starts_with("start") ? "" : " --log " + copies[who]));
    clocks_[who] = trial_.now;
    INFO(command << "\n" << outcome.out << outcome.err);
    CHECK(outcome.code <= 2);
    return outcome;
  }

  void types(std::size_t who, const std::string& what, const std::string& command) {
    const auto before = last_line(who);
    if (at(who, command).code == 0 && (last_line(who) > before || what == "sign")) did(what);
  }

  [[nodiscard]] std::int64_t last_line(std::size_t who) const {
    return SQLite::Database(copies[who]).execAndGet("SELECT max(line) FROM entry").getInt64();
  }

  // The numbers of the lines of this kind that stand.
  std::vector<std::int64_t> standing(std::size_t who, const std::string& kind) {
    SQLite::Database shell(copies[who]);
    SQLite::Statement row(shell,
                          "SELECT line FROM entry WHERE kind = ? AND id NOT IN (SELECT struck_id "
                          "FROM strike) ORDER BY line");
    row.bind(1, kind);
    std::vector<std::int64_t> lines;
    while (row.executeStep()) lines.push_back(row.getColumn(0).getInt64());
    return lines;
  }

  std::string joint() { return one_of<std::string>({"K01", "K02", "K03"}); }
  std::string place() { return fmt::format("{}/{}", joint(), number(1, 4)); }

  void something(std::size_t who) {
    switch (number(0, 21)) {
      case 0:
        return types(who, "out",
                     "out " + place() + " --note greasy" +
                         (number(0, 2) == 0 ? " --damaged-thread hole" : " --broke tight"));
      case 1:
        return types(who, "found", "found " + place() + " '14s 15o 16p' --wrench TW1");
      case 2:
        return pulls(who);
      case 3:
      case 4:
        return replaced(who);
      case 5:
        return types(who, "item", fmt::format("item C{} --what clips --count 3", number(1, 9)));
      case 6:
        return types(who, "item back", "item C1 --back 1");
      case 7:
        return types(who, "fluid", "fluid oil --drained '1 L'");
      case 8:
        return types(who, "hold point passed", "hold-point HV --pass");
      case 9:
        return types(who, "tighten",
                     fmt::format("tighten {}/1-4 --pass {}", joint(), number(1, 2)));
      case 10:
        return types(
            who, "stripe",
            fmt::format("stripe K01/{}{}", number(1, 4), number(0, 3) == 0 ? "" : " --wiped"));
      case 11:
        return types(who, "recheck",
                     fmt::format("recheck K01/{} {}", number(1, 4),
                                 one_of<std::string>({"aligned", "'turned 20°'"})));
      case 12:
        return types(who, "renew", "renew " + place() + " --arrived");
      case 13:
        return types(who, "photo",
                     "photo " + place() + " " + file("mark.png") + " --note 'the mark'");
      case 14:
        return types(who, "sign", "sign");
      case 15:
        return types(who, "joint",
                     fmt::format("joint K{:02} --holds hood --size M10 --grade 10.9 --count {}",
                                 number(3, 7), number(3, 6)));
      case 16:
        return struck(who);
      case 17:
        return unreadable(who);
      case 18:
        return finished(who);
      case 19:
        return merged(who);
      default:
        return settled(who);
    }
  }

  void pulls(std::size_t who) {
    trial_.typed = one_of<std::string>({"\ns\n", "\ns\ns\no\n", "s\n", "\ns\nn\n", "\ne\n"});
    const auto before = standing(who, "pull").size();
    at(who, "bench " + place());
    trial_.typed.clear();
    if (standing(who, "pull").size() > before) did("pull");
  }

  void replaced(std::size_t who) {
    const auto lines = standing(who, number(0, 1) == 0 ? "removal" : "finding");
    if (lines.empty()) return;
    const auto line = one_of(lines);
    const auto wrong = fmt::format(" --replace {} --why 'misread'", line);
    // Of either kind; the other is refused.
    types(who, "--replace", "out " + place() + " --bag B2" + wrong);
    types(who, "--without", "out " + place() + wrong + " --without note");
    types(who, "finding replaced", "found " + place() + " '14s 15o 17p' --wrench TW1" + wrong);
  }

  void struck(std::size_t who) {
    types(who, "strike",
          fmt::format("strike {} --why 'another machine'",
                      number(2, static_cast<int>(last_line(who)))));
  }

  // A line that cannot be read, its hash right, and struck before anybody takes it over.
  void unreadable(std::size_t who) {
    const auto before = standing(who, "fluid").size();
    at(who, "fluid grease --drained '1 L'");
    if (standing(who, "fluid").size() == before) return;
    const auto line = last_line(who);
    forge_last(
        copies[who],
        fmt::format("UPDATE fluid SET note = char(155) WHERE entry_id = (SELECT id FROM entry "
                    "WHERE line = {})",
                    line));
    const auto strike = at(who, fmt::format("strike {} --why 'no note'", line));
    CHECK(strike.code == 0);
    did("an unreadable line");
  }

  // Closes whatever was decided and waits for being told that it is done.
  void finished(std::size_t who) {
    const auto audit = at(who, "audit --json").json();
    for (const auto& work : audit["to_do"]) {
      types(who, "settle --done",
            "settle '" + work["deviation"].get<std::string>() + "' --done 'insert fitted'");
    }
  }

  void merged(std::size_t who) {
    if (static_cast<int>(who) >= writers_) return;
    types(who, "merge", "merge " + copies[static_cast<std::size_t>(number(0, 2))]);
  }

  // A decision on what the audit has open.
  void settled(std::size_t who) {
    std::vector<std::string> open;
    const auto audit = at(who, "audit --json").json();
    for (const auto& each : audit["deviations"]) {
      if (each["settled"].is_null()) open.push_back(each["id"].get<std::string>());
    }
    if (open.empty()) return;
    if (number(0, 2) == 0) {
      return types(who, "settle", "settle damaged-thread:K02/1 --as repair --why torn --with PQ");
    }
    types(who, "settle",
          fmt::format("settle '{}' --as {} --why seen --with PQ", one_of(open),
                      one_of<std::string>({"use-as-is", "re-torque", "renew", "repair", "repair",
                                           "correct-record"})));
  }
};

// Whatever of the three merges wrong; empty where nothing does.
std::string wrong_with(ThreePeople& three) {
  std::array<std::size_t, 3> order = {0, 1, 2};
  std::string one;
  std::string told;
  do {
    const auto whole = three.another(order[0]);
    for (const auto i : {1U, 2U}) merge(whole, three.copies[order[i]]);
    const auto rows = rows_of(whole);
    if (one.empty()) one = rows;
    const auto by_order = fmt::format(" in the order {}{}{}", order[0], order[1], order[2]);
    if (rows != one) return "other rows" + by_order;
    // Of the first order and of the last, which is its reverse.
    if (order[1] == 1) {
      const auto answers = three.later("audit --json --all", whole).out +
                           three.later("history --json --whole", whole).out;
      if (told.empty()) told = answers;
      if (answers != told) return "other answers" + by_order;
    }
    if (!logbook::verify(whole).fits()) return "does not fit" + by_order;
    if (!std::ranges::is_sorted(order)) continue;
    // Once more, and the whole into one of its parts: the same logbook.
    const auto bytes = content_of(whole);
    for (const auto& copy : three.copies) {
      if (!merge(whole, copy).new_lines.empty()) return "takes lines a second time";
    }
    if (content_of(whole) != bytes) return "merged twice it is changed";
    const auto part = three.another(2);
    const auto merged = three.later("merge " + whole, part);
    if (merged.code != 0) return "refused: " + merged.said();
    if (rows_of(part) != one) return "other rows where the whole comes into a part";
  } while (std::next_permutation(order.begin(), order.end()));
  return {};
}

}  // namespace

TEST_CASE("histories typed on three copies merge in any order into one logbook",
          "[logbook][torture][slow]") {
  std::map<std::string, int> taken;
  const auto wanted = static_cast<unsigned>(trials(10, 600));
  std::size_t faults = 0;
  std::string first;
  for (unsigned seed = 1; seed <= wanted; ++seed) {
    ThreePeople three(seed);
    for (const auto& [what, times] : three.taken) taken[what] += times;
    const auto wrong = wrong_with(three);
    if (!wrong.empty() && faults++ == 0) first = fmt::format("seed {}: {}", seed, wrong);
  }
  tell_torture("three copies of random histories, merged in every order", wanted,
               faults == 0 ? "one logbook to the row, whatever the order" : first, faults);
  INFO(first);
  CHECK(faults == 0);
  // Each deed was taken, not only tried.
  for (const auto* what : {"a clock that goes back",
                           "an older copy",
                           "an unreadable line",
                           "out",
                           "found",
                           "pull",
                           "--replace",
                           "--without",
                           "finding replaced",
                           "item",
                           "item back",
                           "fluid",
                           "hold point passed",
                           "tighten",
                           "stripe",
                           "recheck",
                           "renew",
                           "photo",
                           "sign",
                           "joint",
                           "strike",
                           "merge",
                           "settle",
                           "settle --done"}) {
    INFO(what);
    CHECK(taken[what] > 0);
  }
}

}  // namespace merged_histories_test
