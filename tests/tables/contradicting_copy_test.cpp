// Copies of a logbook that contradict themselves and whose hashes are all right: it is what they
// say that refuses them, in words that name the place.

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/hashed_copy.h"
#include "support/trial.h"

namespace contradicting_copy_test {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

// Lines 1 to 8: the start, a wrench, a joint and its specification, a finding that line 6 strikes,
// a fastener that came out, and a finding that stands.
class Copied {
 public:
  Copied() {
    trial.environment["BOLTWITNESS_LOG"] = path("gb1.bolts");
    trial.done("start " + path("gb1.bolts") + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 16 --spec "
        "'40 N·m, 60 N·m, 80 N·m'");
    trial.done("found J06/3 60s 70s 80o --wrench TW2");
    trial.done("strike 5 --why 'wrong position'");
    trial.done("out J06/4");
    trial.done("found J06/5 60s 70s 80o --wrench TW2");
    whole = Json::parse(trial.done("export").out);
  }
  std::string path(const std::string& name) { return trial.folder().file(name); }

  // What import answers to it, its hashes right.
  Outcome import(Json copy) {
    hash_anew(copy);
    trial.typed = copy.dump();
    auto answer = trial.run("import - --log " + path("new.bolts"));
    INFO(answer.err);
    CHECK(fs::exists(path("new.bolts")) == (answer.code == 0));
    fs::remove(path("new.bolts"));
    return answer;
  }

  Trial trial;
  Json whole;
};

struct Damage {
  const char* what;
  std::function<void(Json& lines)> done;
  const char* says;
};

Json& rows(Json& lines, std::size_t line, const char* table) {
  return lines[line - 1]["rows"][table];
}

// With another value in the first row of a table of this line.
std::function<void(Json&)> set(std::size_t line, const char* table, const char* column,
                               const Json& value) {
  return [=](Json& lines) { rows(lines, line, table)[0][column] = value; };
}

}  // namespace

TEST_CASE("hashes that are computed anew from the definition are those of the program",
          "[cli][import]") {
  Copied copied;
  auto again = copied.whole;
  for (auto& line : again["lines"]) line["chain"]["hash"] = "";
  hash_anew(again);
  CHECK(again == copied.whole);
  CHECK(copied.import(again).code == 0);
}

TEST_CASE("a copy that contradicts itself is refused by what it says, its hashes right",
          "[cli][import]") {
  Copied copied;
  const std::vector<Damage> damages = {
      {"a kind that there is not", [](Json& lines) { lines[2]["kind"] = "screw"; },
       "/lines/2/kind: \"screw\" is none of"},
      {"another kind than its rows", [](Json& lines) { lines[2]["kind"] = "wrench"; },
       "/lines/2: the copy holds what cannot be read: kind: \"wrench\" with the rows of a joint"},
      {"a strike that is called a finding", [](Json& lines) { lines[5]["kind"] = "finding"; },
       "kind: \"finding\" with the rows of a strike"},
      {"a strike that is denied", [](Json& lines) { lines[4]["struck"] = false; },
       "/lines/4/struck: a line is struck where, and only where, a later line strikes it"},
      {"a strike that was not", [](Json& lines) { lines[6]["struck"] = true; },
       "/lines/6/struck: a line is struck where, and only where, a later line strikes it"},
      {"a table that there is not",
       [](Json& lines) {
         lines[2]["rows"] = {{"joints", lines[2]["rows"]["joint"]}};
       },
       "/lines/2/rows: a logbook of this version has no table \"joints\""},
      {"a column that there is not", set(3, "joint", "colour", "red"),
       "/lines/2/rows/joint/0: nothing is known of \"colour\" in joint"},
      {"a column that is missing", [](Json& lines) { rows(lines, 3, "joint")[0].erase("grade"); },
       "/lines/2/rows/joint/0: \"grade\" is missing"},
      {"no rows", [](Json& lines) { lines[6]["rows"] = Json::object(); },
       "/lines/6: the copy holds what cannot be read: its content is not there"},
      {"rows of two kinds",
       [](Json& lines) { lines[6]["rows"]["joint"] = lines[2]["rows"]["joint"]; },
       "/lines/6: the copy holds what cannot be read: kind: \"removal\" with the rows of a joint"},
      {"a row twice",
       [](Json& lines) { rows(lines, 3, "joint").push_back(rows(lines, 3, "joint")[0]); },
       "/lines/2/rows/joint/1: the logbook refuses this"},
      {"a number for a text", set(3, "joint", "grade", 8.8),
       "/lines/2/rows/joint/0/grade: expected a text here"},
      {"nothing for a text", set(3, "joint", "grade", nullptr),
       "NOT NULL constraint failed: joint.grade"},
      {"a text for a number", set(3, "joint", "count", "16"),
       "/lines/2/rows/joint/0/count: expected a whole number here"},
      {"no positions", set(3, "joint", "count", 0),
       "CHECK constraint failed: count BETWEEN 1 AND 10000"},
      {"a layout that there is not", set(3, "joint", "layout", "spiral"),
       "layout: \"spiral\" is no layout"},
      {"a layout of another count",
       [](Json& lines) {
         rows(lines, 3, "joint")[0]["layout"] = "rectangle 2x8";
         rows(lines, 3, "joint")[0]["count"] = 10;
       },
       "layout: rectangle 2x8 cannot hold 10 positions; expected 16"},
      {"a size that there is not", set(3, "joint", "size", "M13x9"),
       "size: M13x9: expected a pitch from 0.2 to 3.25 mm"},
      {"a size that is none", set(3, "joint", "size", "banana"),
       "size: \"banana\": expected a metric thread"},
      {"a length unlike the one that was typed",
       [](Json& lines) {
         rows(lines, 3, "joint")[0]["length_mm"] = 90.0;
         rows(lines, 3, "joint")[0]["length_typed"] = "80 mm";
       },
       "typed as \"80 mm\" and kept as 90 mm, which is not the same"},
      {"an order that names a position twice", set(3, "joint", "order_text", "1,1,9"),
       "order: \"1,1,9\" is no tightening order of 16 positions"},
      {"a pass rule that there is not", set(3, "joint", "passes", "seventeen"),
       "passes: \"seventeen\" is no pass rule"},
      {"a material that there is not", set(3, "joint", "into_material", "cheese"),
       "into: the material \"cheese\" is not known"},
      {"a mark that there is not", set(8, "setting_reading", "mark", "nearly"),
       "CHECK constraint failed: mark IN"},
      {"a setting unlike the one that was typed", set(8, "setting_reading", "setting", 61.0),
       "applied_nm: 60.0; expected 61, by the rest of its line"},
      {"a torque unlike its setting", set(8, "setting_reading", "applied_nm", 61.0),
       "applied_nm: 61.0; expected 60, by the rest of its line"},
      {"setting and torque unlike what was typed",
       [](Json& lines) {
         rows(lines, 8, "setting_reading")[1]["setting"] = 65.0;
         rows(lines, 8, "setting_reading")[1]["applied_nm"] = 65.0;
       },
       "typed as \"60s 70s 80o\" and kept as 60s 65s 80o, which is not the same"},
      {"range and N·m unlike what was typed",
       [](Json& lines) {
         rows(lines, 2, "wrench")[0]["scale_high"] = 300.0;
         rows(lines, 2, "wrench")[0]["scale_high_nm"] = 300.0;
       },
       "which is not the same"},
      {"procedure and torque unlike what was typed",
       [](Json& lines) {
         rows(lines, 4, "specification")[0]["procedure"] = "40 N·m, 60 N·m, 90 N·m";
         rows(lines, 4, "specification")[0]["torque_nm"] = 90.0;
       },
       "which is not the same"},
      {"a mark unlike the one that was typed", set(8, "setting_reading", "mark", "on"),
       "70s after 60o: the mark cannot fall back"},
      {"a pull twice", [](Json& lines) { rows(lines, 8, "setting_reading")[1]["pull"] = 1; },
       "UNIQUE constraint failed: setting_reading.entry_id, setting_reading.pull"},
      {"a pull that is missing", [](Json& lines) { rows(lines, 8, "setting_reading").erase(1); },
       "typed as \"60s 70s 80o\" and kept as 60s 80o, which is not the same"},
      {"a position below all", set(8, "finding", "position", 0),
       "CHECK constraint failed: position BETWEEN 1 AND 10000"},
      {"a procedure that is none", set(4, "specification", "procedure", "about 80 N·m"),
       "procedure: \"about 80 N·m\": expected a number first"},
      {"a procedure unlike the one that was typed",
       set(4, "specification", "procedure", "40 N·m, 60 N·m, 90 N·m"),
       "torque_nm: 80.0; expected 90, by the rest of its line"},
      {"a torque unlike its procedure", set(4, "specification", "torque_nm", 90.0),
       "torque_nm: 90.0; expected 80, by the rest of its line"},
      {"a condition that there is not", set(4, "specification", "condition", "wet"),
       "condition: \"wet\"; expected a condition"},
      {"a unit that there is not", set(2, "wrench", "scale_unit", "pond"),
       "scale_unit: \"pond\"; expected a unit of torque"},
      {"a range unlike the one that was typed", set(2, "wrench", "scale_high", 300.0),
       "scale_high_nm: 200.0; expected 300, by the rest of its line"},
      {"N·m unlike the scale", set(2, "wrench", "scale_high_nm", 300.0),
       "scale_high_nm: 300.0; expected 200, by the rest of its line"},
      {"a day that there is not", set(2, "wrench", "calibrated_on", "2026-02-30"),
       "calibrated_on: \"2026-02-30\": expected a day"},
      {"a strike of no line", set(6, "strike", "struck_id", "11111111-1111-7111-8111-111111111111"),
       "a row of strike belongs to a row of entry that is not there"},
      {"a strike of a later line",
       [](Json& lines) {
         rows(lines, 6, "strike")[0]["struck_id"] = lines[6]["id"];
         lines[4]["struck"] = false;
         lines[6]["struck"] = true;
       },
       "struck_id: a strike, the first line, a line that came later or none"},
      {"a strike of the first line",
       [](Json& lines) {
         rows(lines, 6, "strike")[0]["struck_id"] = lines[0]["id"];
         lines[4]["struck"] = false;
         lines[0]["struck"] = true;
       },
       "a strike or the first line cannot be struck"},
      {"an id that is none",
       [](Json& lines) { lines[6]["id"] = "g" + lines[6]["id"].get<std::string>().substr(1); },
       "expected a UUID such as"},
      {"an id twice", [](Json& lines) { lines[6]["id"] = lines[7]["id"]; },
       "expected an id that no other line has"},
      {"ids that do not rise", [](Json& lines) { std::swap(lines[6]["id"], lines[7]["id"]); },
       "/lines/7: the logbook refuses this (ids rise from line to line"},
      {"a line number twice", [](Json& lines) { lines[6]["line"] = 8; },
       "/lines/7/line: \"8\"; expected a number above that of the line before"},
      {"line numbers that fall", [](Json& lines) { lines[7]["line"] = 3; },
       "/lines/7/line: \"3\"; expected a number above that of the line before"},
      {"a line number that is left out", [](Json& lines) { lines[7]["line"] = 9; },
       "/lines/7: the logbook refuses this (lines are numbered one after the other"},
      {"a line that is left out", [](Json& lines) { lines.erase(6); },
       "/lines/6: the logbook refuses this (lines are numbered one after the other"},
      {"a line twice", [](Json& lines) { lines.push_back(lines[7]); },
       "/lines/8/line: \"8\"; expected a number above that of the line before"},
      {"a time that there is not",
       [](Json& lines) { lines[6]["done_at"] = "2026-02-30T08:00:00.000Z"; },
       "expected a time such as 2026-03-02T08:15:00.000Z"},
      {"a device that is none", [](Json& lines) { lines[6]["device"] = "phone"; },
       "/lines/6/device: \"phone\"; expected a UUID such as"},
      {"nobody", [](Json& lines) { lines[6]["by"] = ""; },
       "CHECK constraint failed: length(by_whom) BETWEEN 1 AND 80"},
      {"no start", [](Json& lines) { lines.erase(0); },
       "/lines/0: the logbook refuses this (the start is the first line of a logbook"},
      {"another first kind", [](Json& lines) { lines[0]["kind"] = "joint"; },
       "/lines/0: the logbook refuses this (the start is the first line of a logbook"},
      {"no machine", set(1, "logbook_start", "machine", ""),
       "CHECK constraint failed: length(machine) > 0"},
      {"a tolerance unlike the one that was typed",
       set(1, "logbook_start", "tolerance_percent", 20.0),
       "typed as \"10%\" and kept as 20%, which is not the same"},
      {"a second start",
       [](Json& lines) {
         auto start = lines[0];
         start["line"] = 9;
         start["id"] = "7fffffff-ffff-7fff-8fff-000000000009";
         lines.push_back(start);
       },
       "/lines/8: the logbook refuses this (the start is the first line of a logbook and never a "
       "later one)"},
      {"the highest id, after which no line can come",
       [](Json& lines) { lines[7]["id"] = "ffffffff-ffff-ffff-ffff-ffffffffffff"; },
       "/lines/7: the logbook refuses this (ids rise from line to line, of years before 10000"},
  };
  for (const auto& [what, done, says] : damages) {
    auto copy = copied.whole;
    done(copy["lines"]);
    const auto answer = copied.import(copy);
    INFO(what << ": " << answer.code << ' ' << answer.said());
    CHECK(answer.code == 2);
    CHECK(answer.out.empty());
    CHECK_THAT(answer.said(), ContainsSubstring(says));
    CHECK_THAT(answer.said(), !ContainsSubstring("does not fit its hash"));
  }
}

}  // namespace contradicting_copy_test
