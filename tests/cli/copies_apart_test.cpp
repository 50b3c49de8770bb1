// Two copies of a logbook were gone on with by people who did not see each other's lines, and
// become one: what one of them wrote is never outvoted by what the other wrote later.

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace copies_apart_test {

namespace {

namespace fs = std::filesystem;

// RK and DV, each with a copy that knows wrench TW1 and joint J01.
class Copies {
 public:
  explicit Copies(const std::string& joint_options = "")
      : ours(trial.folder().file("kw.bolts")), theirs(trial.folder().file("dv.bolts")) {
    trial.done("start " + ours + " --machine KW-7");
    rk("wrench TW1 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    rk("joint J01 --holds cap --size M12x1.75 --length 90mm --grade 8.8 --count 6 --layout circle "
       "--spec '80 N·m' --source 'Book p. 1' --condition oiled " +
       joint_options);
    part();
  }
  // From here on each goes on with a copy of its own of what RK has.
  void part() { fs::copy_file(ours, theirs, fs::copy_options::overwrite_existing); }
  void rk(const std::string& command) { at('1', "RK", ours, command); }
  void dv(const std::string& command) { at('2', "DV", theirs, command); }
  void merge() {
    trial.done("merge " + theirs + " --log " + ours);
    trial.done("merge " + ours + " --log " + theirs);
    CHECK(told("audit --json") == trial.run("audit --json --log " + theirs).out);
  }
  Outcome run(const std::string& command) { return trial.run(command + " --by RK --log " + ours); }
  std::string told(const std::string& command) { return run(command).out; }
  // The sentence, with the lines put together.
  std::string said(const std::string& command) { return run(command).told(); }

  // The open deviations of a rule.
  std::vector<nlohmann::json> of_rule(const std::string& rule) {
    std::vector<nlohmann::json> found;
    const auto audit = run("audit --json").json()["deviations"];
    std::ranges::copy_if(audit, std::back_inserter(found), [&](const auto& each) {
      return each["rule"] == rule && each["settled"].is_null();
    });
    return found;
  }
  nlohmann::json one_of_rule(const std::string& rule) {
    const auto found = of_rule(rule);
    REQUIRE(found.size() == 1);
    return found.front();
  }
  void all_passes(const std::string& who, const std::string& address) {
    for (const auto* pass : {"--pass 1 --wrench TW1 --set 40", "--pass 2 --wrench TW1 --set 56",
                             "--pass 3 --wrench TW1 --set 80", "--pass 4 --wrench TW1 --set 80"}) {
      const auto command = "tighten " + address + " " + pass;
      who == "RK" ? rk(command) : dv(command);
    }
  }

  Trial trial;
  std::string ours;
  std::string theirs;

 private:
  void at(char device, const std::string& who, const std::string& log,
          const std::string& command) {
    trial.device.back() = device;
    trial.done(command + " --by " + who + " --log " + log);
  }
};

std::string says(const nlohmann::json& deviation) { return deviation["says"].get<std::string>(); }

}  // namespace

TEST_CASE("what was seen as a bolt came out is not outvoted by a later line", "[cli]") {
  Copies copies;
  copies.dv("out J01/3 --broke sheared --note 'head came off'");
  copies.dv("out J01/4 --damaged-thread hole");
  copies.dv("out J01/5 --size M12x1.5");
  copies.dv("out J01/6 --broke empty");
  copies.rk("out J01/1-6 --bag A1");
  copies.merge();
  const auto twice = copies.one_of_rule("out twice");
  CHECK(twice["level"] == "hold");
  CHECK(twice["positions"] == nlohmann::json({3, 4, 5, 6}));
  CHECK_THAT(says(twice), ContainsSubstring("broke loose sheared (line 4, DV), normal (line 8, RK)") &&
                              ContainsSubstring("damaged: hole (line 5, DV)") &&
                              ContainsSubstring("size M12x1.5 (line 6, DV)"));
  for (const auto* rule : {"break loose", "damaged thread", "other fastener", "found empty"}) {
    CHECK(copies.one_of_rule(rule)["level"] == "hold");
  }
  CHECK_THAT(copies.said("renew"), ContainsSubstring("sheared") && ContainsSubstring("found empty"));
  CHECK_THAT(copies.said("show J01/3"),
             ContainsSubstring("DISPUTED, the worse counts: broke sheared") &&
                 ContainsSubstring("head came off") && ContainsSubstring("bag A1"));
  CHECK_FALSE(copies.run("show J01/3 --json").json()["row"]["out_disputed"].empty());
  SECTION("the one struck, the other counts") {
    copies.rk("strike 4 --why 'that was J02/3'");
    CHECK(copies.one_of_rule("out twice")["positions"] == nlohmann::json({4, 5, 6}));
    CHECK(copies.of_rule("break loose").empty());
  }
  SECTION("going on does not hide it") {
    copies.all_passes("RK", "J01/1-5");
    copies.rk("stripe J01/1-5 --wiped");
    CHECK(copies.one_of_rule("out twice")["level"] == "hold");
    CHECK(copies.one_of_rule("break loose")["level"] == "hold");
    CHECK_THAT(copies.said("status"), !ContainsSubstring("Finished"));
  }
}

TEST_CASE("two outs made apart that agree are only looked at", "[cli]") {
  Copies copies;
  copies.dv("out J01/1-2 --bag A1");
  copies.rk("out J01/1-6 --bag A1");
  copies.merge();
  CHECK(copies.one_of_rule("out twice")["level"] == "check");
  CHECK(copies.run("show J01/1 --json").json()["row"]["out_disputed"].empty());
}

TEST_CASE("who tightened in a copy apart is no second person", "[cli]") {
  Copies copies("--critical");
  copies.rk("out J01/1-6 --bag A1");
  copies.part();
  copies.all_passes("RK", "J01/1-6");
  copies.all_passes("DV", "J01/1-6");
  copies.merge();
  const auto check = copies.trial.run("tighten J01/1-6 --check --by RK --log " + copies.ours);
  CHECK(check.code == 1);
  CHECK_THAT(check.said(), ContainsSubstring("RK tightened J01/01"));
  CHECK(copies.trial.run("tighten J01/1-6 --check --by DV --log " + copies.ours).code == 1);
  copies.trial.done("tighten J01/1-6 --check --by LM --log " + copies.ours);
}

TEST_CASE("a check by who tightened in the other copy is a hold", "[cli]") {
  Copies copies("--critical");
  copies.rk("out J01/1-6 --bag A1");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 40");
  copies.all_passes("DV", "J01/1-6");
  copies.dv("tighten J01/1-6 --check --by RK");
  copies.merge();
  CHECK(copies.one_of_rule("second person")["level"] == "hold");
}

TEST_CASE("a joint that was struck here and worked on there counts on, and holds", "[cli]") {
  Copies copies;
  copies.rk("joint J03 --holds flange --size M10 --grade 10.9 --count 2 --spec '30 N·m, +90°' "
            "--source 'Book p. 2'");
  copies.rk("out J03/1-2 --bag A3");
  copies.part();
  copies.dv("strike 4 --why 'there is no such joint'");
  copies.rk("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.rk("tighten J03/1-2 --pass 2 --turned 90");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK(struck["id"] == "struck-apart:J03");
  CHECK(struck["level"] == "hold");
  CHECK_THAT(says(struck), ContainsSubstring("joint J03 was struck in line 7 (DV)") &&
                               ContainsSubstring("line 8 (RK), line 9 (RK)"));
  CHECK(copies.of_rule("stray entry").empty());
  CHECK_THAT(copies.said("show J03"),
             ContainsSubstring("struck in line 7 by DV, worked on by RK"));
  CHECK_THAT(copies.said("status"), !ContainsSubstring("nothing entered yet"));
  CHECK_THAT(copies.said("sequence"),
             ContainsSubstring("struck in line 7 by DV, worked on by RK"));
  SECTION("gone once what was entered for it is struck too") {
    for (const auto* line : {"5", "6", "8", "9"}) {
      copies.rk(std::string("strike ") + line + " --why 'it was J04'");
    }
    CHECK(copies.of_rule("struck apart").empty());
    CHECK(copies.run("show J03").code == 1);
  }
  SECTION("there, by one who saw both") {
    copies.rk("joint J03 --holds flange --size M10 --grade 10.9 --count 2");
    CHECK(copies.of_rule("struck apart").empty());
    CHECK(copies.of_rule("stray entry").empty());
  }
  SECTION("settled as it stands") {
    copies.rk("settle struck-apart:J03 --as use-as-is --why 'it is there'");
    CHECK(copies.of_rule("struck apart").empty());
    CHECK(copies.run("show J03").code == 0);
  }
}

TEST_CASE("a turn by an angle on both sides holds though the joint was struck in between",
          "[cli]") {
  Copies copies;
  copies.rk("joint J03 --holds flange --size M10 --grade 10.9 --count 2 --spec '30 N·m, +90°' "
            "--source 'Book p. 2'");
  copies.rk("out J03/1-2 --bag A3");
  copies.part();
  copies.rk("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.rk("tighten J03/1-2 --pass 2 --turned 90");
  copies.dv("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.dv("tighten J03/1-2 --pass 2 --turned 90");
  copies.dv("strike 4 --why 'there is no such joint'");
  copies.merge();
  const auto apart = copies.one_of_rule("tightened apart");
  CHECK(apart["level"] == "hold");
  CHECK_FALSE(copies.of_rule("struck apart").empty());
}

TEST_CASE("a hold point and an item that were struck here and used there count on", "[cli]") {
  Copies copies;
  copies.rk("hold-point HV --what 'dead' --before J01");
  copies.rk("item CL1 --what clip --count 4");
  copies.part();
  copies.dv("strike 4 --why 'not on this machine'");
  copies.dv("strike 5 --why 'none'");
  copies.rk("hold-point HV --pass");
  copies.rk("item CL1 --back 3");
  copies.merge();
  const auto struck = copies.of_rule("struck apart");
  REQUIRE(struck.size() == 2);
  CHECK(struck[0]["id"] == "struck-apart:hold-point:HV");
  CHECK(struck[1]["id"] == "struck-apart:item:CL1");
  CHECK(copies.of_rule("stray entry").empty());
  CHECK_THAT(copies.said("item"), ContainsSubstring("CL1"));
}

TEST_CASE("a line that was put right twice is one hold, of its own id", "[cli]") {
  Copies copies;
  copies.rk("out J01/1-6 --bag A1");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 40");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 44 --replace 5 --why '44 it was'");
  copies.dv("tighten J01/1-6 --pass 1 --wrench TW1 --set 48 --replace 5 --why '48 it was'");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK_THAT(says(struck), ContainsSubstring("was struck in line 6 (RK) and in line 8 (DV)") &&
                               ContainsSubstring("line 7 (RK), line 9 (DV)"));
  const auto id = struck["id"].get<std::string>();
  copies.rk("settle " + id + " --as use-as-is --why 'done over anyway'");
  CHECK(copies.of_rule("struck apart").empty());
}

TEST_CASE("a test that was moved to two positions is a hold", "[cli]") {
  Copies copies;
  copies.rk("found J01/6 76s 79s 80o --wrench TW1");
  copies.part();
  copies.rk("found J01/5 --replace 4 --why 'it was 5'");
  copies.dv("found J01/4 --replace 4 --why 'it was 4'");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK(struck["level"] == "hold");
  CHECK_THAT(says(struck), ContainsSubstring("line 6 (RK), line 8 (DV)"));
}

TEST_CASE("of two tests made apart the worse counts, and every screen says so", "[cli]") {
  Copies copies;
  copies.dv("found J01/1 40s 46s 50o 53p --wrench TW1");
  copies.rk("found J01/1 76s 79s 80o 82p --wrench TW1");
  copies.merge();
  CHECK(copies.one_of_rule("found apart")["level"] == "hold");
  CHECK(copies.one_of_rule("found low")["positions"] == nlohmann::json({1}));
  for (const auto* command : {"compare", "compare J01", "show J01", "show J01/1"}) {
    CHECK_THAT(copies.said(command), ContainsSubstring("disputed") || ContainsSubstring("DISPUTED"));
  }
  const auto row = copies.run("compare --json").json()["rows"][0];
  CHECK(row["verdict"] == "low");
  CHECK(row["disputed"].size() == 2);
  copies.rk("strike 4 --why 'it was J02/1'");
  CHECK(copies.run("compare --json").json()["rows"][0]["verdict"] == "within");
  CHECK_THAT(copies.said("compare"), !ContainsSubstring("disputed"));
}

}  // namespace copies_apart_test
