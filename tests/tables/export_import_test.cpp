// export and import: what goes out comes back in, and what is wrong is told and changes nothing.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "exchange/csv.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/random_logbook.h"
#include "support/trial.h"
#include "support/whole_csv.h"

namespace export_import_test {

namespace {

namespace fs = std::filesystem;

const std::vector<std::string> kTables = {"wrenches", "joints", "findings", "tightenings"};

// A logbook with a wrench of each unit, a joint and a finding.
class Desk {
 public:
  Desk() {
    trial.environment["BOLTWITNESS_LOG"] = path("gb1.bolts");
    trial.done("start " + path("gb1.bolts") + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("wrench TW3 --range '10..75 ft·lbf' --graduation '0.5 ft·lbf'");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 16 --spec "
        "'40 N·m, 60 N·m, 80 N·m'");
    trial.done("found J06/3 60s 70s 80o --wrench TW2");
  }

  std::string path(const std::string& name) { return trial.folder().file(name); }

  Outcome import(const std::string& text, const std::string& options = "") {
    trial.typed = text;
    return trial.run("import - " + options);
  }

  std::string exported(const std::string& table) { return trial.done("export " + table).out; }

  Trial trial;
};

// What import says to a file, which must be refused and leave everything as it was.
std::string refused(Desk& desk, const std::string& text) {
  const auto before = content_of(desk.path("gb1.bolts"));
  const auto answer = desk.import(text);
  CHECK(answer.code == 2);
  CHECK(answer.out.empty());
  const bool is_unchanged = content_of(desk.path("gb1.bolts")) == before;
  CHECK(is_unchanged);
  return answer.said();
}

std::vector<std::vector<std::string>> with_points(const std::string& csv) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : exchange::read_csv(csv).rows) {
    auto& cells = rows.emplace_back();
    for (const auto& cell : row) cells.push_back(exchange::with_decimal_point(cell.text));
  }
  return rows;
}

}  // namespace

TEST_CASE("random logbooks come back from JSON byte for byte", "[cli][import]") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    INFO("seed " << seed);
    Trial trial;
    const auto file = [&](const std::string& name) { return trial.folder().file(name); };
    make_random_logbook(file("first.bolts"), seed);
    trial.done("export --log " + file("first.bolts") + " --to " + file("copy.json"));
    trial.done("import " + file("copy.json") + " --log " + file("second.bolts"));
    const auto second = trial.done("export --log " + file("second.bolts")).out;
    const bool is_same = second == content_of(file("copy.json"));
    CHECK(is_same);
    for (const std::string command : {"history", "compare", "audit"}) {
      const auto answer = trial.run(command + " --json --log " + file("first.bolts"));
      CHECK(trial.run(command + " --json --log " + file("second.bolts")).out == answer.out);
    }
  }
}

TEST_CASE("tables of random logbooks come back from CSV byte for byte", "[cli][import]") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    Trial trial;
    const auto file = [&](const std::string& name) { return trial.folder().file(name); };
    make_random_logbook(file("first.bolts"), seed);
    trial.done("start " + file("second.bolts") + " --machine GB-1");
    for (const auto& table : kTables) {
      INFO("seed " << seed << ", " << table);
      const auto csv = trial.done("export " + table + " --log " + file("first.bolts")).out;
      trial.typed = csv;
      trial.done("import - --log " + file("second.bolts"));
      CHECK(trial.done("export " + table + " --log " + file("second.bolts")).out == csv);
    }
  }
}

TEST_CASE("random logbooks come back from JSON Lines byte for byte", "[cli][import]") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    INFO("seed " << seed);
    Trial trial;
    const auto file = [&](const std::string& name) { return trial.folder().file(name); };
    make_random_logbook(file("first.bolts"), seed);
    const auto lines = trial.done("export --json-lines --log " + file("first.bolts")).out;
    trial.typed = lines;
    trial.done("import - --log " + file("second.bolts"));
    CHECK(trial.done("export --json-lines --to - --log " + file("second.bolts")).out == lines);
  }
}

TEST_CASE("JSON Lines that are not all there are refused", "[cli][import]") {
  Desk desk;
  const auto lines = desk.trial.done("export --json-lines").out;
  const auto taken = [&](const std::string& text) {
    desk.trial.typed = text;
    const auto answer = desk.trial.run("import - --log " + desk.path("copy.bolts"));
    CHECK(answer.code == 2);
    CHECK_FALSE(fs::exists(desk.path("copy.bolts")));
    return answer.said();
  };
  const auto last = lines.rfind('\n', lines.size() - 2) + 1;
  CHECK_THAT(taken(lines.substr(0, last)),
             ContainsSubstring("5 lines follow where its first line tells of 6"));
  CHECK_THAT(taken(lines.substr(0, lines.size() - 9)), ContainsSubstring("object 7"));
  CHECK_THAT(taken(lines + lines.substr(last)), ContainsSubstring("above that of the line before"));
  CHECK_THAT(taken(lines + "{\"line\":9}\n"), ContainsSubstring("\"id\" is missing"));
  CHECK_THAT(taken(lines.substr(0, lines.find('\n') + 1)), ContainsSubstring("0 lines follow"));
}

TEST_CASE("tables with a decimal comma come back unchanged", "[cli][import]") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    Trial trial;
    const auto file = [&](const std::string& name) { return trial.folder().file(name); };
    const auto first = " --log " + file("first.bolts");
    const auto second = " --log " + file("second.bolts");
    make_random_logbook(file("first.bolts"), seed);
    trial.done("start " + file("second.bolts") + " --machine GB-1");
    for (const auto& table : kTables) {
      INFO("seed " << seed << ", " << table);
      const auto csv = trial.done("export " + table + " --decimal-comma" + first).out;
      trial.typed = csv;
      trial.done("import -" + second);
      CHECK(trial.done("export " + table + " --decimal-comma" + second).out == csv);
      // What was typed with a decimal comma comes back with the point.
      CHECK(with_points(trial.done("export " + table + second).out) ==
            with_points(trial.done("export " + table + first).out));
    }
  }
}

TEST_CASE("a table with a decimal comma has commas in its numbers and nowhere else",
          "[cli][import]") {
  Desk desk;
  desk.trial.done(
      "joint J07 --holds 'v1.5 cover' --size M12x1.25 --grade 8.8 --count 4 --length 62.5mm "
      "--layout "
      "'at 0,0 40.5,0 0,30 40,30' --spec '12.345 N·m, 22.5 N·m' --source 'drawing 7.2' --order "
      "1,3,2,4");
  const auto csv = desk.trial.done("export joints --decimal-comma").out;
  CHECK_THAT(csv, ContainsSubstring("joint;holds;size;length;"));
  CHECK_THAT(csv,
             ContainsSubstring("J07;v1.5 cover;M12x1.25;62,5mm;8.8;4;at 0,0 40.5,0 0,30 40,30;"));
  CHECK_THAT(csv, ContainsSubstring("12,345 N·m, 22,5 N·m;drawing 7.2;"));
  CHECK_THAT(csv, ContainsSubstring("1,3,2,4"));
  // A decimal comma that was typed stays the same value; here it cannot be one of thousands.
  CHECK(
      desk.import("joint;holds;size;grade;count;spec\nJ08;cover;M12;8.8;4;\"12,345 N·m\"\n").code ==
      0);
  const auto json = desk.trial.done("show J08/1 --json").json();
  CHECK(json["row"]["spec"]["nominal_nm"] == 12.345);
  const auto again = desk.import(csv);
  CHECK(again.code == 2);
  CHECK_THAT(again.said(), ContainsSubstring("says just this already"));
  CHECK(desk.trial.run("export --decimal-comma").code == 2);
}

TEST_CASE("a row is what the command records", "[cli][import]") {
  Desk desk;
  CHECK(desk.import("joint,holds,size,grade,count,spec,condition\r\n"
                    "J07,\"cover, left\",M8,8.8,4,\"9-11 N·m\",oiled\r\n"
                    "J07/2,,,,,12 N·m,\r\n")
            .out == "2 rows of joints: 3 lines, 7 to 9\n");
  CHECK(desk.import("address,readings,wrench\nJ07/1,30s 32o,tw2\n").code == 0);
  const auto typed = desk.exported("findings");
  CHECK_THAT(typed, ContainsSubstring("J07/01,30s 32o,TW2,N·m,,stacked"));
  CHECK_THAT(desk.exported("joints"),
             ContainsSubstring("J07,\"cover, left\",M8x1.25,,8.8,4,circle,"));
}

TEST_CASE("a fastener that is tested once more is remarked on", "[cli][import]") {
  Desk desk;
  const std::string header = "address,readings,wrench\n";
  const auto once = desk.import(header + "J06/10,60s 70o,TW2\nJ06/11,60s 70o,TW2\n");
  CHECK_THAT(once.said(), !ContainsSubstring("tested already"));
  const auto again = desk.import(header +
                                 "J06/11,60s 72o,TW2\nJ06/12,60s 70o,TW2\n"
                                 "J06/12,60s 71o,TW2\n");
  CHECK(again.code == 0);
  CHECK_THAT(again.said(), ContainsSubstring("J06/11-12 were tested already"));
  // Once something went back it may be another teardown's, which the audit tells apart.
  desk.trial.done("tighten J06/10 --pass 1");
  const auto later = desk.import(header + "J06/12,60s 73o,TW2\n");
  CHECK_THAT(later.said(), !ContainsSubstring("tested already"));
}

TEST_CASE("who and when are the row's own, else the command's", "[cli][import]") {
  Desk desk;
  CHECK(desk.import("address,readings,wrench,by,at\n"
                    "J06/4,60s 70o,TW2,LM,2026-05-02T10:00Z\nJ06/5,60s 70o,TW2,,\n",
                    "--at 2026-05-03T10:00Z")
            .code == 0);
  const auto csv = desk.exported("findings");
  CHECK_THAT(csv, ContainsSubstring("LM,2026-05-02T10:00:00.000Z"));
  CHECK_THAT(csv, ContainsSubstring("KB,2026-05-03T10:00:00.000Z"));
}

TEST_CASE("a unit may stand in the cell or in a column of units", "[cli][import]") {
  Desk desk;
  const std::string header = "joint,holds,size,grade,count,spec,unit,length,length-unit\n";
  CHECK(desk.import(header + "J07,cover,M12,8.8,4,80 ±5%,N·m,90,mm\n"
                             "J08,cover,M12,8.8,4,60 ft-lb,ft·lbf,\"3,5 in\",in\n")
            .code == 0);
  const auto csv = desk.exported("joints");
  CHECK_THAT(csv, ContainsSubstring("80 ±5% N·m") && ContainsSubstring("90 mm"));
  CHECK_THAT(csv, ContainsSubstring("60 ft-lb") && ContainsSubstring("\"3,5 in\""));
  CHECK_THAT(refused(desk, header + "J09,cover,M12,8.8,4,80,,,\n"),
             ContainsSubstring("line 2, column 6 (spec): \"80\"") && ContainsSubstring("unit"));
  CHECK_THAT(refused(desk, header + "J09,cover,M12,8.8,4,,,90,\n"),
             ContainsSubstring("line 2, column 8 (length)"));
  CHECK_THAT(refused(desk, "address,readings,wrench,unit\nJ06/1,60s 70o,TW2,ft·lbf\n"),
             ContainsSubstring("line 2, column 4 (unit): \"ft·lbf\": settings stand on the scale "
                               "of TW2, which is in N·m"));
}

TEST_CASE("a table from a spreadsheet is read as it saves it", "[cli][import]") {
  Desk desk;
  CHECK(desk.import("\xEF\xBB\xBF"
                    "address;readings;wrench\r\nJ06/4;60,5s 70o;TW2\r\n")
            .code == 0);
  CHECK(desk.import("address,readings,wrench\nJ06/5,\"60s\r\n70s\n80o\",TW2\n").code == 0);
  const auto csv = desk.exported("findings");
  CHECK_THAT(csv, ContainsSubstring("J06/04,60.5s 70o,TW2"));
  CHECK_THAT(csv, ContainsSubstring("J06/05,60s 70s 80o,TW2"));
}

TEST_CASE("text that looks like a formula stays as it was typed", "[cli][import]") {
  Desk desk;
  for (const std::string text : {"=1+2", "+3", "-4", "@x"}) {
    const auto code = "X" + std::to_string(text.front());
    CHECK(desk.import("joint,holds,size,grade,count\n" + code + "," + text + ",M8,8.8,4\n").code ==
          0);
    // What a spreadsheet would compute is guarded on its way out; a plain number is none of that.
    const bool is_number = text == "+3" || text == "-4";
    CHECK_THAT(desk.exported("joints"),
               ContainsSubstring(code + "," + (is_number ? "" : "'") + text + ",M8"));
    CHECK_THAT(desk.trial.done("show " + code).out, ContainsSubstring(text + ";"));
  }
}

TEST_CASE("every bad row is told at once", "[cli][import]") {
  Desk desk;
  const auto said = refused(desk,
                            "address,readings,wrench\nJ06/1,60s 70o,TW2\nJ06/17,60s 70o,TW2\n"
                            "J6/1,60s 70o,TW2\nJ06/1,70s 60o,TW2\nJ06/1,60s 70o,TW9\nJ06/2,60s\n");
  CHECK_THAT(said, ContainsSubstring("5 faults; nothing was written"));
  CHECK_THAT(said, ContainsSubstring("line 3, column 1 (address): J06 has the positions 1 to 16"));
  CHECK_THAT(said, ContainsSubstring("line 4, column 1 (address): there is no joint \"J6\""));
  CHECK_THAT(said, ContainsSubstring("line 5, column 2 (readings): 60o after 70s"));
  CHECK_THAT(said, ContainsSubstring("line 6, column 3 (wrench): there is no wrench \"TW9\""));
  CHECK_THAT(said,
             ContainsSubstring("line 7, column 3 (wrench): 2 cells where the header names 3"));
  std::string many = "address,readings,wrench\n";
  for (int i = 0; i < 70; ++i) many += "J99/1,60s 70o,TW2\n";
  CHECK_THAT(refused(desk, many),
             ContainsSubstring("70 faults") && ContainsSubstring("and 20 more"));
}

TEST_CASE("columns are named, each once", "[cli][import]") {
  Desk desk;
  CHECK_THAT(refused(desk, "address,reading,wrench\nJ06/1,60s 70o,TW2\n"),
             ContainsSubstring("line 1, column 2: there is no column \"reading\" in findings; did "
                               "you mean readings?") &&
                 ContainsSubstring("the column readings is missing"));
  // Each unknown one is named, with the nearest where there is one; those that are known once.
  const auto unknown = refused(desk, "address,readings,wrench,bye,colour\nJ06/1,60s,TW2,KB,red\n");
  CHECK_THAT(unknown, ContainsSubstring("2 faults") &&
                          ContainsSubstring("column 4: there is no column \"bye\" in findings; did "
                                            "you mean by?") &&
                          ContainsSubstring("column 5: there is no column \"colour\" in findings; "
                                            "known are address, readings, "));
  CHECK(unknown.find("known are") == unknown.rfind("known are"));
  CHECK_THAT(refused(desk, "address,readings,wrench,wrench\nJ06/1,60s 70o,TW2,TW2\n"),
             ContainsSubstring("line 1, column 4: the column wrench is there twice"));
  CHECK_THAT(refused(desk, "what,ever\n1,2\n"), ContainsSubstring("does not tell which table"));
  CHECK_THAT(refused(desk, ""), ContainsSubstring("there is nothing in it"));
  CHECK(desk.import("address,wrench,by,at\nJ06/1,TW2,,\n", "--as findings").code == 2);
}

TEST_CASE("import --check tells what would be written and writes nothing", "[cli][import]") {
  Desk desk;
  const std::string good = "address,readings,wrench\nJ06/4,60s 70o,TW2\n";
  const auto before = content_of(desk.path("gb1.bolts"));
  CHECK(desk.import(good, "--check").out == "1 row of findings: 1 line; nothing was written\n");
  CHECK(desk.import(good + "J06/4,70s,TW9\n", "--check").code == 2);
  const bool is_unchanged = content_of(desk.path("gb1.bolts")) == before;
  CHECK(is_unchanged);
  const auto json = [&](const std::string& options) {
    const auto answer = desk.import(good, options + " --json");
    REQUIRE(answer.code == 0);
    return answer.json();
  };
  CHECK(json("--check")["first_line"].is_null());
  CHECK(json("")["first_line"] == 7);
}

TEST_CASE("a file that was imported before is noticed", "[cli][import]") {
  Desk desk;
  for (const auto& table : {"wrenches", "joints", "findings"}) {
    CHECK_THAT(refused(desk, desk.exported(table)), ContainsSubstring("imported before?"));
  }
  // Who and when are not in every table.
  const std::string bare = "name,range,graduation\nTW9,2..25 N·m,0.5 N·m\n";
  CHECK(desk.import(bare).code == 0);
  CHECK_THAT(refused(desk, bare), ContainsSubstring("imported before?"));
  CHECK(desk.import("name,calibrated\nTW9,2026-04-02\n").code == 0);
}

TEST_CASE("a pass is taken as it was asked for, or as the plan asks", "[cli][import]") {
  Desk desk;
  const std::string header = "address,pass,asked,wrench,set,by,check,at\n";
  CHECK(desk.import(header + "J06/1-16,1,,TW2,40,,,\nJ06/1-16,2,torque 60 N·m,TW2,60,,,\n"
                             "J06/1-16,3,,TW2,80,,,\nJ06/1,3,,TW2,80,LM,yes,\n")
            .code == 0);
  CHECK_THAT(desk.exported("tightenings"),
             ContainsSubstring("J06/1-16,1,torque 40 N·m,TW2,40,N·m"));
  CHECK_THAT(desk.trial.done("tighten").out, ContainsSubstring("48 of 48 steps done"));
  CHECK_THAT(refused(desk, header + "J06/2,3,,TW2,80,kb,yes,\n"),
             ContainsSubstring("column 6 (by): kb tightened J06/02"));
  CHECK_THAT(refused(desk, header + "J06/2,9,,TW2,80,,,\n"),
             ContainsSubstring("column 2 (pass): J06/02 has no pass 9"));
  CHECK_THAT(refused(desk, header + "J06/2,3,,,,,,\n"), ContainsSubstring("column 5 (set)"));
  CHECK_THAT(refused(desk, header + "J06/2,3,torque 80,TW2,80,,,\n"),
             ContainsSubstring("column 3 (asked)"));
  CHECK_THAT(refused(desk, header + "J06/2,3,,TW2,800,,,\n"),
             ContainsSubstring("column 5 (set): TW2 cannot be set to 800 N·m"));
  desk.trial.done("hold-point HV --what 'rails dead' --before J06");
  CHECK_THAT(refused(desk, header + "J06/2,3,,TW2,80,,,\n"), ContainsSubstring("hold point"));
}

TEST_CASE("a specification that the bolt cannot carry has to be meant", "[cli][import]") {
  Desk desk;
  const std::string header = "joint,holds,size,grade,count,spec,really\n";
  CHECK_THAT(
      refused(desk, header + "J07,cover,M8,8.8,4,160 N·m,\n"),
      ContainsSubstring("column 6 (spec): 160 N·m on M8 8.8") && ContainsSubstring("add really"));
  CHECK(desk.import(header + "J07,cover,M8,8.8,4,160 N·m,yes\n").code == 0);
}

TEST_CASE("an export keeps off the files that SQLite has beside a logbook", "[cli][export]") {
  Desk desk;
  for (const auto* part : {"gb1.bolts-wal", "gb1.bolts-shm", "gb1.bolts-journal"}) {
    INFO(part);
    const auto refused = desk.trial.run("export --to " + desk.path(part));
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("belongs to"));
  }
}

TEST_CASE("an export never replaces a file and leaves no half one", "[cli][export]") {
  Desk desk;
  desk.trial.done("export joints --to " + desk.path("joints.csv"));
  CHECK(content_of(desk.path("joints.csv")) == desk.exported("joints"));
  const auto again = desk.trial.run("export wrenches --to " + desk.path("joints.csv"));
  CHECK(again.code == 1);
  CHECK_THAT(again.said(), ContainsSubstring("is there already"));
  CHECK(content_of(desk.path("joints.csv")) == desk.exported("joints"));
  CHECK(desk.trial.run("export --to /dev/full").code == 1);
  CHECK(desk.trial.run("export --to " + desk.path("none/x.json")).code == 2);
  CHECK(desk.trial.run("export joint").code == 2);
  CHECK(desk.trial.run("export joints --json").code == 2);
  desk.trial.disk_is_full = true;
  CHECK(desk.trial.run("export").code == 3);
}

TEST_CASE("a whole logbook goes into a new file alone", "[cli][import]") {
  Desk desk;
  const auto json = desk.exported("");
  const auto before = content_of(desk.path("gb1.bolts"));
  CHECK(desk.import(json).code == 1);
  const bool is_unchanged = content_of(desk.path("gb1.bolts")) == before;
  CHECK(is_unchanged);
  const auto into = "--log " + desk.path("new.bolts");
  CHECK(desk.import(json, into + " --check").code == 0);
  CHECK_FALSE(fs::exists(desk.path("new.bolts")));
  CHECK(desk.import(json, into).out == "the whole logbook: 6 lines, 1 to 6\n");
}

// Its hashes are left as they were; with right ones: contradicting_copy_test.cpp.
TEST_CASE("a copy that contradicts itself makes no logbook", "[cli][import]") {
  Desk desk;
  desk.trial.done("strike 5 --why 'wrong position'");
  const auto json = desk.exported("");
  const std::vector<std::pair<std::string, std::string>> damages = {
      {"\"kind\":\"joint\"", "\"kind\":\"screw\""},
      {"\"kind\":\"joint\"", "\"kind\":\"wrench\""},
      {"\"kind\":\"strike\"", "\"kind\":\"finding\""},
      {"\"struck\":true", "\"struck\":false"},
      {"\"struck\":false", "\"struck\":true"},
      {"\"rows\":{\"joint\":[", "\"rows\":{\"joints\":["},
      {"\"rows\":{\"joint\":[{", "\"rows\":{\"joint\":[{\"colour\":\"red\","},
      {"\"grade\":\"8.8\",", ""},
      {"\"grade\":\"8.8\"", "\"grade\":8.8"},
      {"\"grade\":\"8.8\"", "\"grade\":null"},
      {"\"count\":16", "\"count\":\"16\""},
      {"\"count\":16", "\"count\":0"},
      {"\"layout\":\"circle\"", "\"layout\":\"spiral\""},
      {"\"size\":\"M12x1.75\"", "\"size\":\"M12\",\"size\":\"M13\""},
      {"\"mark\":\"short\"", "\"mark\":\"nearly\""},
      {"\"pull\":2", "\"pull\":1"},
      {"\"procedure\":\"", "\"procedure\":\"about "},
      {"\"schema\":", "\"schema\":9"},
      {"\"schema\":", "\"schema\":-"},
      {"\"condition\":\"as-received\"", "\"condition\":\"wet\""},
      {"\"scale_unit\":\"N·m\"", "\"scale_unit\":\"pond\""},
      {"\"struck_id\":\"0", "\"struck_id\":\"1"},
      {"\"id\":\"0", "\"id\":\"g"},
      {"\"kind\":\"start\"", "\"kind\":\"joint\""},
      {"\"line\":2", "\"line\":1"},
      {"\"machine\":\"GB-1\"", "\"machine\":\"\""},
  };
  for (const auto& [good, bad] : damages) {
    INFO(good << " -> " << bad);
    auto damaged = json;
    const auto at = damaged.find(good);
    REQUIRE(at != std::string::npos);
    damaged.replace(at, good.size(), bad);
    const auto answer = desk.import(damaged, "--log " + desk.path("new.bolts"));
    CHECK(answer.code == 2);
    CHECK_FALSE(answer.said().empty());
    CHECK_FALSE(fs::exists(desk.path("new.bolts")));
  }
  CHECK(std::distance(fs::directory_iterator(desk.trial.folder().path()), {}) == 1);
}

TEST_CASE("a unit in a cell that contradicts the column of units is refused", "[cli][import]") {
  Desk desk;
  const std::string joints = "joint,holds,size,grade,count,spec,unit,length,length-unit\n";
  const auto says = refused(desk, joints +
                                      "J08,cover,M12,8.8,4,60 ft-lb,N·m,,\n"
                                      "J09,cover,M12,8.8,4,,,\"3,5 in\",mm\n");
  CHECK_THAT(says,
             ContainsSubstring("line 2, column 6 (spec): \"60 ft-lb\": says \"ft-lb\", but the "
                               "column unit says \"N·m\""));
  CHECK_THAT(says, ContainsSubstring("line 3, column 8 (length): \"3,5 in\": says \"in\", but the "
                                     "column length-unit says \"mm\""));
  for (const std::string spec : {"\"40 Nm, 60 ft-lb\"", "min 60 ft-lb", "60 ft-lb ±5%",
                                 "\"60 ft-lb, +60° (55-65)\"", "50-60 ft-lb"}) {
    INFO(spec);
    CHECK_THAT(refused(desk, joints + "J08,cover,M12,8.8,4," + spec + ",N·m,,\n"),
               ContainsSubstring("but the column unit says"));
  }
  CHECK_THAT(refused(desk, "name,range,graduation,unit\nTW9,20..200 Nm,1,ft·lbf\n"),
             ContainsSubstring("line 2, column 2 (range)"));
  // The same unit in other words, and words that are no unit.
  CHECK(desk.import(joints + "J08,cover,M12,8.8,4,\"40 Nm, loosen, 40 newton metres\",N·m,90mm,mm\n"
                             "J09,cover,M12,8.8,4,\"40 Nm, +60° (55-65)\",nm,9 cm,cm\n")
            .code == 0);
}

TEST_CASE("what is no table says what it is and what to try", "[cli][import]") {
  Desk desk;
  CHECK_THAT(refused(desk, ""), ContainsSubstring("there is nothing in it; expected a table") &&
                                    ContainsSubstring("boltwitness export joints"));
  CHECK_THAT(refused(desk, "\xEF\xBB\xBF\r\n"), ContainsSubstring("there is nothing in it"));
  for (const std::string mark : {"\xFF\xFE", "\xFE\xFF"}) {
    CHECK_THAT(refused(desk, mark + std::string("j\0o\0", 4)),
               ContainsSubstring("byte order mark of UTF-16") && ContainsSubstring("UTF-8"));
  }
  CHECK_THAT(refused(desk, "address,readings,wrench\rJ06/1,60s 70o,TW2\r"),
             ContainsSubstring("the lines of the whole file end with CR alone; expected LF"));
  for (const std::string json : {"{}", "{\"rows\": 1}", "[1, 2]"}) {
    desk.trial.typed = json;
    const auto answer = desk.trial.run("import - --log " + desk.path("copy.bolts"));
    CHECK(answer.code == 2);
    CHECK_THAT(answer.said(), ContainsSubstring("this JSON is no copy of a logbook; expected") &&
                                  ContainsSubstring("boltwitness export --to FILE"));
    CHECK_FALSE(fs::exists(desk.path("copy.bolts")));
  }
  fs::create_directory(desk.path("tables"));
  const auto folder = desk.trial.run("import " + desk.path("tables"));
  CHECK(folder.code == 2);
  CHECK_THAT(folder.said(), ContainsSubstring("tables is a folder; expected a file"));
  std::ofstream(desk.path("empty.csv")).close();
  const auto empty = desk.trial.run("import " + desk.path("empty.csv"));
  CHECK(empty.code == 2);
  CHECK_THAT(empty.said(), ContainsSubstring("empty.csv: there is nothing in it"));
}

TEST_CASE("a fault behind a line end in quotes is told at the line where its row starts",
          "[cli][import]") {
  Desk desk;
  const std::string header = "joint,holds,size,grade,count\n";
  const auto says =
      refused(desk, header + "J07,\"cover,\nleft\",M8,8.8,none\nJ08,cover,M8,8.8,x\n");
  CHECK_THAT(says, ContainsSubstring("line 2, column 5 (count)"));
  CHECK_THAT(says, ContainsSubstring("line 4, column 5 (count)"));
}

TEST_CASE("a row that repeats one before is refused, with another time it is not",
          "[cli][import]") {
  Desk desk;
  const std::string header = "address,readings,wrench,at\n";
  const std::string first = "J06/4,60s 70o,TW2,2026-05-02T10:00Z\n";
  CHECK_THAT(refused(desk, header + first + first),
             ContainsSubstring("line 3, column 1 (address): says the same as line 2 of this file"));
  CHECK_THAT(refused(desk, header + first + "j06/04,60S 70 on,tw2,2026-05-02T10:00:00Z\n"),
             ContainsSubstring("line 3, column 1 (address): says the same as line 2 of this file"));
  CHECK_THAT(refused(desk, "name,range,graduation\nTW8,20..200 Nm,1 Nm\nTW8,20..200 Nm,1 Nm\n"),
             ContainsSubstring("says the same as line 2"));
  CHECK_THAT(refused(desk, "joint,spec\nJ06/1-2,70 Nm\nJ06/1-2,70 Nm\n"),
             ContainsSubstring("says the same as line 2"));
  CHECK(desk.import(header + first + "J06/4,60s 70o,TW2,2026-05-02T10:01Z\n").code == 0);
}

TEST_CASE("a table typed by hand is noticed as imported before by its values", "[cli][import]") {
  Desk desk;
  const std::string typed =
      "address,readings,wrench,at\nj06/4,\"60S, 70:on\",tw2,2026-05-02T10:00Z\n";
  CHECK(desk.import(typed).code == 0);
  CHECK_THAT(refused(desk, typed), ContainsSubstring("the logbook says just this already"));
  CHECK_THAT(refused(desk, "address,readings,wrench\nJ06/04,60s 70o,TW2\n"),
             ContainsSubstring("the logbook says just this already"));
  CHECK_THAT(refused(desk, "joint,spec\nj06,\"40Nm, 60 Nm, 80 newton metres\"\n"),
             ContainsSubstring("the logbook says just this already"));
  CHECK_THAT(refused(desk, "name,range,graduation\nTW2,20-200 Nm,1 Nm\n"),
             ContainsSubstring("the logbook says just this already"));
  // Near misses: another reading, another time.
  CHECK(desk.import("address,readings,wrench\nJ06/4,60s 71o,TW2\n").code == 0);
  CHECK(desk.import("address,readings,wrench,at\nJ06/4,60s 70o,TW2,2026-05-02T10:01Z\n").code == 0);
}

TEST_CASE("no cell of any table begins as a formula, and all of them come back", "[cli][import]") {
  Desk desk;
  desk.trial.done(
      "joint J07 --holds '=cmd|x' --size M8 --grade '@SUM(A1)' --count 4 --spec '20 N·m' "
      "--source '+1+1' --by '-KB' --final-when '=when warm'");
  desk.trial.done("wrench TW4 --range '1..20 N·m' --graduation '1 N·m' --serial '=HYPERLINK(1)'");
  desk.trial.done("found J07/1 10s 12o --wrench TW4 --by '@LM'");
  for (const auto& table : kTables) {
    const auto csv = desk.exported(table);
    for (const auto& row : exchange::read_csv(csv).rows) {
      for (const auto& cell : row) {
        if (cell.text.empty() || std::string("=+@").find(cell.text.front()) == std::string::npos) {
          continue;
        }
        INFO(table << ": " << cell.text);
        CHECK_THAT(csv, ContainsSubstring("'" + cell.text));
      }
    }
  }
  Trial other;
  other.environment["BOLTWITNESS_LOG"] = other.folder().file("other.bolts");
  other.done("start " + other.folder().file("other.bolts") + " --machine GB-1");
  for (const auto& table : kTables) {
    const auto csv = desk.exported(table);
    other.typed = csv;
    other.done("import -");
    CHECK(other.done("export " + table).out == csv);
  }
}

TEST_CASE("only the first of many unknown names is told what may be meant", "[cli][import]") {
  Desk desk;
  std::string text = "address,readings,wrench\n";
  for (int row = 0; row < 60; ++row) text += fmt::format("J07/{},60s 70o,TW2\n", row + 1);
  const auto said = refused(desk, text);
  CHECK_THAT(said, ContainsSubstring("60 faults") && ContainsSubstring("did you mean J06?"));
  desk.trial.typed = "joint,spec\nJ07/1,20 N·m\n";
  CHECK_THAT(desk.trial.run("import -").said(), ContainsSubstring("did you mean J06?"));
}

}  // namespace export_import_test
