// A laptop and a phone log one bench, each on a copy, and become one logbook again: what
// contradicts shows, and can be decided.

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace merge_test {

namespace {

namespace fs = std::filesystem;

class Bench {
 public:
  Bench() : laptop(trial.folder().file("gb1.bolts")), phone(trial.folder().file("phone.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = laptop;
    trial.done("start " + laptop + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m' --source 'GB-1 p. "
        "3' --condition dry");
    trial.done("out J06/1-4 --bag A1");
    fs::copy_file(laptop, phone);
  }
  void on_laptop(const std::string& command) { at("1", "KB", laptop, command); }
  void on_phone(const std::string& command) { at("2", "LM", phone, command); }

  // Through all passes of J06, in both copies.
  void tighten_all() {
    while (trial.run("tighten J06/1-4").code == 0) continue;
    fs::copy_file(laptop, phone, fs::copy_options::overwrite_existing);
  }

  // Merges, both ways round, and gives the audit; both say the same.
  nlohmann::json merged() {
    const auto there = trial.folder().file("there.bolts");
    fs::copy_file(phone, there, fs::copy_options::overwrite_existing);
    trial.done("merge " + laptop + " --log " + there);
    trial.done("merge " + phone);
    auto audit = audited();
    CHECK(trial.run("audit --json --log " + there).out == trial.run("audit --json").out);
    return audit;
  }
  nlohmann::json audited() { return trial.run("audit --json").json()["deviations"]; }

  Trial trial;
  std::string laptop;
  std::string phone;

 private:
  void at(const std::string& device, const std::string& who, const std::string& log,
          const std::string& command) {
    trial.device.back() = device.front();
    trial.done(command + " --by " + who + " --log " + log);
  }
};

// The deviations of one rule.
std::vector<nlohmann::json> of_rule(const nlohmann::json& audit, const std::string& rule) {
  std::vector<nlohmann::json> found;
  std::ranges::copy_if(audit, std::back_inserter(found),
                       [&](const auto& each) { return each["rule"] == rule; });
  return found;
}

}  // namespace

TEST_CASE("a merge tells what came, what moved and how it stands", "[cli]") {
  Bench bench;
  bench.on_phone("fluid oil --drained '2 L'");
  bench.on_laptop("joint J07 --holds cover --size M8 --grade 8.8 --count 2");
  bench.on_laptop("out J07/1-2 --bag A2");
  const auto would = bench.trial.done("merge " + bench.phone + " --check");
  CHECK_THAT(would.told(), ContainsSubstring("1 line would be taken over from"));
  CHECK_THAT(would.told(), ContainsSubstring("Nothing was written."));
  CHECK_THAT(bench.trial.done("history").out, !ContainsSubstring("oil"));
  const auto made = bench.trial.done("merge " + bench.phone);
  CHECK_THAT(made.told(), ContainsSubstring("1 line taken over from"));
  CHECK_THAT(made.told(), ContainsSubstring("line 6: 2 L of oil drained (LM)"));
  CHECK_THAT(made.told(),
             ContainsSubstring("2 lines of this logbook have other numbers now: line 6 "
                               "is now line 7"));
  const auto again = bench.trial.done("merge " + bench.phone);
  CHECK_THAT(again.told(), ContainsSubstring("nothing to take over: all 6 lines of"));
  CHECK_THAT(again.told(), ContainsSubstring("holds lines that the copy does not"));
  const auto json = bench.trial.done("merge " + bench.phone + " --json").json();
  CHECK(json["lines"].empty());
  CHECK(json["ahead"] == true);
  CHECK(json["moved"].is_null());
}

TEST_CASE("a merge keeps the logbook as it was beside it, and where nothing came none", "[cli]") {
  Bench bench;
  bench.on_phone("out J06/1 --replace 5 --why 'one only'");
  const auto kept = bench.laptop + ".before-merge";
  CHECK(bench.trial.run("merge --check " + bench.phone).code == 0);
  CHECK_FALSE(fs::exists(kept));
  const auto before = bench.trial.done("export").out;
  const auto merged = bench.trial.done("merge " + bench.phone);
  CHECK_THAT(merged.told(), ContainsSubstring("The logbook as it was is kept beside it as "
                                              "gb1.bolts.before-merge"));
  CHECK(bench.trial.done("export --log " + kept).out == before);
  CHECK(bench.trial.done("merge " + bench.phone).out.find("kept") == std::string::npos);
  CHECK(bench.trial.done("merge --json " + bench.phone).json()["kept"].is_null());
  CHECK_FALSE(fs::exists(kept + "-2"));
  bench.on_phone("fluid oil --drained '1 L'");
  CHECK(bench.trial.done("merge --json " + bench.phone).json()["kept"] == kept + "-2");
  CHECK(bench.trial.done("verify --log " + kept + "-2").code == 0);
}

TEST_CASE("a joint or wrench code that got two meanings is a hold until one is left", "[cli]") {
  Bench bench;
  bench.on_laptop("joint J09 --holds cover --size M8 --grade 8.8 --count 6");
  bench.on_phone("joint J09 --holds flange --size M10 --grade 10.9 --count 8");
  bench.on_laptop("wrench TW5 --range '5..25 N·m' --graduation '0.1 N·m'");
  bench.on_phone("wrench tw5 --range '60..300 N·m' --graduation '1 N·m'");
  // Said alike on both sides, though typed otherwise, is no contradiction.
  bench.on_laptop("wrench TW6 --range '5..25 N·m' --graduation '0.1 N·m'");
  bench.on_phone("wrench TW6 --range '5-25 Nm' --graduation '0.1 Nm'");
  const auto found = of_rule(bench.merged(), "two meanings");
  REQUIRE(found.size() == 2);
  CHECK(found[0]["id"] == "two-meanings:joint:J09");
  CHECK(found[0]["joint"] == "J09");
  CHECK(found[0]["level"] == "hold");
  CHECK_THAT(found[0]["says"].get<std::string>(),
             ContainsSubstring("--count 6 in line") && ContainsSubstring("--size M8") &&
                 ContainsSubstring("M10") && ContainsSubstring("(KB)") &&
                 ContainsSubstring("(LM)"));
  CHECK(found[1]["id"] == "two-meanings:wrench:tw5");
  SECTION("one struck") {
    bench.trial.done("strike 7 --why 'the flange is J10'");
    bench.trial.done("strike 9 --why 'another wrench'");
    CHECK(of_rule(bench.audited(), "two meanings").empty());
  }
  SECTION("said anew by one who saw both") {
    bench.trial.done(
        "wrench TW5 --range '5..25 N·m' --graduation '0.1 N·m' --calibrated 2026-05-04");
    CHECK(of_rule(bench.audited(), "two meanings").size() == 1);
  }
  SECTION("settled") {
    bench.trial.done("settle two-meanings:wrench:tw5 --as use-as-is --why 'one tool, two heads'");
    const auto settled = of_rule(bench.audited(), "two meanings");
    REQUIRE(settled.size() == 2);
    CHECK_FALSE(settled[1]["settled"].is_null());
  }
}

TEST_CASE("two tests of one fastener hold it up where they come to two verdicts", "[cli]") {
  Bench bench;
  bench.on_laptop("found J06/1 70s 76s 80o --wrench TW2");
  bench.on_phone("found J06/1 40s 46s 50o --wrench TW2");
  bench.on_laptop("found J06/2 76s 79s 80o --wrench TW2");
  bench.on_phone("found J06/2 76s 79s 80o --wrench TW2");
  const auto audit = bench.merged();
  const auto found = of_rule(audit, "found apart");
  REQUIRE(found.size() == 2);
  CHECK(found[0]["id"] == "found-apart:J06/01");
  CHECK(found[0]["level"] == "hold");
  CHECK(found[1]["id"] == "found-apart:J06/02");
  CHECK(found[1]["level"] == "check");
  CHECK(of_rule(audit, "repeated finding").empty());
  bench.trial.done("strike 7 --why 'the second test'");
  CHECK(of_rule(bench.audited(), "found apart").size() == 1);
}

TEST_CASE("two decisions on one matter are a hold until one is struck or made anew", "[cli]") {
  Bench bench;
  bench.on_laptop("found J06/1 40s 46s 50o --wrench TW2");
  fs::copy_file(bench.laptop, bench.phone, fs::copy_options::overwrite_existing);
  bench.on_laptop("settle found-low:J06/1 --as use-as-is --why 'gasket'");
  bench.on_phone("settle found-low:J06/1 --as renew --why 'rusty'");
  const auto found = of_rule(bench.merged(), "decided apart");
  REQUIRE(found.size() == 1);
  CHECK(found[0]["id"] == "decided-apart:found-low:J06/01");
  CHECK(found[0]["level"] == "hold");
  CHECK_THAT(found[0]["says"].get<std::string>(),
             ContainsSubstring("use-as-is in line 7 (KB)") && ContainsSubstring("renew in line 8"));
  bench.trial.done("strike 7 --why 'we renew it'");
  CHECK(of_rule(bench.audited(), "decided apart").empty());
}

TEST_CASE("the same decision on both sides is none too many", "[cli]") {
  Bench bench;
  bench.on_laptop("found J06/1 40s 46s 50o --wrench TW2");
  fs::copy_file(bench.laptop, bench.phone, fs::copy_options::overwrite_existing);
  bench.on_laptop("settle found-low:J06/1 --as renew --why 'rusty'");
  bench.on_phone("settle found-low:J06/1 --as renew --why 'red all over'");
  CHECK(of_rule(bench.merged(), "decided apart").empty());
}

TEST_CASE("a pass tightened on both sides is told, and a turn by an angle holds", "[cli]") {
  Bench bench;
  bench.on_laptop(
      "joint J07 --holds cap --size M12 --grade 10.9 --count 2 --spec '40 N·m, +90°' "
      "--source 'GB-1 p. 4'");
  bench.on_laptop("out J07/1-2 --bag A2");
  fs::copy_file(bench.laptop, bench.phone, fs::copy_options::overwrite_existing);
  bench.on_laptop("tighten J07/1-2 --pass 1 --wrench TW2 --set 40");
  bench.on_laptop("tighten J07/1-2 --pass 2 --turned 90");
  bench.on_phone("tighten J07/1-2 --pass 1 --wrench TW2 --set 40");
  bench.on_phone("tighten J07/1 --pass 2 --turned 90");
  const auto found = of_rule(bench.merged(), "tightened apart");
  REQUIRE(found.size() == 2);
  CHECK(found[0]["id"] == "tightened-apart:J07/01");
  CHECK(found[0]["level"] == "hold");
  CHECK(found[1]["id"] == "tightened-apart:J07/02");
  CHECK(found[1]["level"] == "check");
}

TEST_CASE("two stripes that say the same are one, and others are asked about", "[cli]") {
  Bench bench;
  bench.tighten_all();
  bench.on_laptop("stripe J06/1-2 --wiped");
  bench.on_phone("stripe J06/1 --wiped");
  bench.on_phone("stripe J06/2 --not-wiped");
  const auto found = of_rule(bench.merged(), "striped apart");
  REQUIRE(found.size() == 1);
  CHECK(found[0]["id"] == "striped-apart:J06/02");
  CHECK(found[0]["level"] == "check");
  CHECK_THAT(found[0]["says"].get<std::string>(),
             ContainsSubstring("teardown mark wiped in line") &&
                 ContainsSubstring("teardown mark not wiped"));
  bench.on_laptop("stripe J06/2 --wiped");
  CHECK(of_rule(bench.audited(), "striped apart").empty());
}

TEST_CASE("a stripe found turned in one copy and aligned later in another is asked about",
          "[cli]") {
  Bench bench;
  bench.tighten_all();
  bench.on_laptop("stripe J06/1-3 --wiped");
  fs::copy_file(bench.laptop, bench.phone, fs::copy_options::overwrite_existing);
  bench.on_laptop("recheck J06/1-2 turned 10");
  bench.on_phone("recheck J06/1 aligned");
  bench.on_phone("recheck J06/2 turned 15");  // it may have turned further
  bench.on_phone("recheck J06/3 aligned");
  bench.on_laptop("recheck J06/3 turned 5");
  const auto found = of_rule(bench.merged(), "looked apart");
  REQUIRE(found.size() == 1);
  CHECK(found[0]["id"] == "looked-apart:J06/01");
  CHECK(found[0]["level"] == "check");
  CHECK_THAT(found[0]["says"].get<std::string>(),
             ContainsSubstring("turned by 10") && ContainsSubstring("aligned in line"));
}

TEST_CASE("a new one recorded as arrived after it went in on the other side is asked about",
          "[cli]") {
  Bench bench;
  bench.on_laptop("renew J06/1-2 --arrived");
  bench.on_phone("renew J06/1 --arrived");  // the same, and nothing was done with it yet
  bench.on_laptop("tighten J06/2 --pass 1 --wrench TW2 --set 40");
  bench.on_phone("renew J06/2 --arrived");
  const auto found = of_rule(bench.merged(), "arrived apart");
  REQUIRE(found.size() == 1);
  CHECK(found[0]["id"] == "arrived-apart:J06/02");
  CHECK(found[0]["level"] == "check");
}

TEST_CASE("fluids, returns and hold points logged on both sides are asked about", "[cli]") {
  Bench bench;
  bench.on_laptop("item CL1 --what clip --count 4");
  bench.on_laptop("hold-point HV --what 'dead' --before J06");
  fs::copy_file(bench.laptop, bench.phone, fs::copy_options::overwrite_existing);
  bench.on_laptop("fluid 'gear oil' --drained '2 L'");
  bench.on_phone("fluid 'Gear oil' --drained '2 L'");
  bench.on_laptop("item CL1 --back 2");
  bench.on_phone("item CL1 --back 2");
  bench.on_laptop("hold-point HV --pass");
  bench.on_phone("hold-point HV --pass");
  const auto found = of_rule(bench.merged(), "logged apart");
  REQUIRE(found.size() == 3);
  CHECK(found[0]["id"] == "logged-apart:fluid:gear-oil:drained");
  CHECK(found[1]["id"] == "logged-apart:item:cl1");
  CHECK(found[2]["id"] == "logged-apart:hold-point:hv");
  bench.trial.done("settle logged-apart:item:cl1 --as use-as-is --why 'two and two'");
  CHECK(of_rule(bench.audited(), "logged apart").size() == 3);
  CHECK_FALSE(of_rule(bench.audited(), "logged apart")[1]["settled"].is_null());
}

TEST_CASE("what was struck here and gone on from there is told", "[cli]") {
  Bench bench;
  bench.on_laptop("strike 5 --why 'that was J07'");
  bench.on_phone("tighten J06/1-4 --pass 1 --wrench TW2 --set 40");
  bench.on_phone("found J06/2 70s 76s 80o --wrench TW2");
  const auto audit = bench.merged();
  const auto found = of_rule(audit, "struck apart");
  REQUIRE(found.size() == 1);
  CHECK(found[0]["joint"] == "J06");
  CHECK(found[0]["level"] == "hold");
  CHECK_THAT(found[0]["says"].get<std::string>(),
             ContainsSubstring("line 5 (KB) was struck in line 6 (KB)") &&
                 ContainsSubstring("line 7 (LM)"));
}

TEST_CASE("a line replaced on both sides leaves both and is asked about", "[cli]") {
  Bench bench;
  bench.on_laptop("out J06/1-4 --bag B1 --replace 5 --why 'bag B1'");
  bench.on_phone("out J06/1-4 --bag C1 --replace 5 --why 'bag C1'");
  const auto audit = bench.merged();
  CHECK_FALSE(of_rule(audit, "out twice").empty());
  // Line 5 was struck by both, and both reasons are kept.
  const auto history = bench.trial.done("history --json").json()["lines"];
  const auto& struck = history[4]["struck"];
  CHECK(struck["why"] == "bag B1");
  REQUIRE(struck["again"].size() == 1);
  CHECK(struck["again"][0]["why"] == "bag C1");
  CHECK_THAT(bench.trial.done("search C1").out, ContainsSubstring("C1"));
}

TEST_CASE("what one side wrote after it had the other's lines contradicts nothing", "[cli]") {
  Bench bench;
  bench.on_phone("joint J09 --holds flange --size M10 --grade 10.9 --count 8");
  bench.trial.done("merge " + bench.phone);
  bench.on_laptop("joint J09 --holds cover --replace 6 --why 'a cover'");
  bench.on_laptop("fluid oil --drained '2 L'");
  bench.trial.done("merge " + bench.laptop + " --log " + bench.phone);
  bench.on_phone("fluid oil --drained '1 L'");
  const auto audit = bench.merged();
  for (const auto* rule : {"two meanings", "logged apart", "struck apart"}) {
    CHECK(of_rule(audit, rule).empty());
  }
}

}  // namespace merge_test
