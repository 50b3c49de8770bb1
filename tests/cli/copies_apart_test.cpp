// Two copies of a logbook were gone on with by people who did not see each other's lines, and
// become one: what one of them wrote is never outvoted by what the other wrote later.

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/pictures.h"
#include "support/trial.h"
#include "terminal/stop_key.h"

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
    for (const auto* pass : {"--pass 1 --wrench TW1 --set 56", "--pass 2 --wrench TW1 --set 80",
                             "--pass 3 --wrench TW1 --set 80"}) {
      const auto command = "tighten " + address + " " + pass;
      who == "RK" ? rk(command) : dv(command);
    }
  }

  Trial trial;
  std::string ours;
  std::string theirs;

 private:
  void at(char device, const std::string& who, const std::string& log, const std::string& command) {
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
  CHECK_THAT(says(twice),
             ContainsSubstring("broke loose sheared (line 5, DV), normal (line 9, RK)") &&
                 ContainsSubstring("damaged: hole (line 6, DV)") &&
                 ContainsSubstring("size M12x1.5 (line 7, DV)"));
  for (const auto* rule : {"break loose", "damaged thread", "other fastener", "found empty"}) {
    CHECK(copies.one_of_rule(rule)["level"] == "hold");
  }
  CHECK_THAT(copies.said("renew"),
             ContainsSubstring("sheared") && ContainsSubstring("found empty"));
  CHECK_THAT(copies.said("show J01/3"),
             ContainsSubstring("DISPUTED, the worse counts: broke sheared") &&
                 ContainsSubstring("head came off") && ContainsSubstring("bag A1"));
  CHECK_FALSE(copies.run("show J01/3 --json").json()["row"]["out_disputed"].empty());
  SECTION("the one struck, the other counts") {
    copies.rk("strike 5 --why 'that was J02/3'");
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

TEST_CASE("the guide asks for no test of what sheared or was not there", "[cli]") {
  Copies copies;
  copies.dv("out J01/3 --broke sheared");
  copies.dv("out J01/6 --broke empty");
  copies.rk("out J01/1-6");
  copies.merge();
  copies.trial.keyboard = true;
  copies.trial.typed = "k\nk\nk\nk\nk\nq\n";
  const auto bench = copies.run("bench J01").out;
  for (const auto* asked : {"J01/01", "J01/02", "J01/04", "J01/05"}) {
    CHECK_THAT(bench, ContainsSubstring(asked));
  }
  for (const auto* done : {"J01/03", "J01/06"}) CHECK_THAT(bench, !ContainsSubstring(done));
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
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 56");
  copies.all_passes("DV", "J01/1-6");
  copies.trial.done("tighten J01/1-6 --check --by RK --log " + copies.theirs);
  copies.merge();
  CHECK(copies.one_of_rule("second person")["level"] == "hold");
}

TEST_CASE("a joint that was struck here and worked on there counts on, and holds", "[cli]") {
  Copies copies;
  copies.rk(
      "joint J03 --holds flange --size M10 --grade 10.9 --count 2 --spec '30 N·m, +90°' "
      "--source 'Book p. 2'");
  copies.rk("out J03/1-2 --bag A3");
  copies.part();
  copies.dv("strike 5 --why 'there is no such joint'");
  copies.rk("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK(struck["id"] == "struck-apart:J03");
  CHECK(struck["level"] == "hold");
  CHECK_THAT(says(struck), ContainsSubstring("joint J03 was struck in line 8 (DV)") &&
                               ContainsSubstring("line 9 (RK) went on from it"));
  CHECK(copies.of_rule("stray entry").empty());
  CHECK_THAT(copies.said("show J03"), ContainsSubstring("struck in line 8 by DV, worked on by RK"));
  CHECK_THAT(copies.said("status"), !ContainsSubstring("nothing entered yet"));
  CHECK_THAT(copies.said("sequence"), ContainsSubstring("struck in line 8 by DV, worked on by RK"));
  SECTION("gone once what was entered for it is struck too") {
    for (const auto* line : {"6", "7", "9"}) {
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

TEST_CASE("a joint that was put right here is told to who worked on it as it was", "[cli]") {
  Copies copies;
  copies.dv("joint J01 --grade 10.9 --replace 3 --why '10.9 on its head'");
  copies.rk("out J01/1-6 --bag A1");
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 56");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK(struck["level"] == "check");
  CHECK_THAT(says(struck),
             ContainsSubstring("joint J01 as line 3 (RK) had it was struck in line") &&
                 ContainsSubstring("(RK) took it for what it had been"));
}

TEST_CASE("a turn by an angle on both sides holds though the joint was struck in between",
          "[cli]") {
  Copies copies;
  copies.rk(
      "joint J03 --holds flange --size M10 --grade 10.9 --count 2 --spec '30 N·m, +90°' "
      "--source 'Book p. 2'");
  copies.rk("out J03/1-2 --bag A3");
  copies.part();
  copies.rk("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.rk("tighten J03/1-2 --pass 2 --turned 90");
  copies.dv("tighten J03/1-2 --pass 1 --wrench TW1 --set 30");
  copies.dv("tighten J03/1-2 --pass 2 --turned 90");
  copies.dv("strike 5 --why 'there is no such joint'");
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
  copies.dv("strike 5 --why 'not on this machine'");
  copies.dv("strike 6 --why 'none'");
  copies.rk("hold-point HV --pass");
  copies.rk("item CL1 --back 3");
  copies.merge();
  const auto struck = copies.of_rule("struck apart");
  REQUIRE(struck.size() == 2);
  CHECK(struck[0]["id"] == "struck-apart:hold-point:HV");
  CHECK(struck[1]["id"] == "struck-apart:item:CL1");
  CHECK(copies.of_rule("stray entry").empty());
  CHECK_THAT(copies.said("item"), ContainsSubstring("CL1"));
  SECTION("one who saw both enters them again") {
    for (const auto& deviation : struck) {
      CHECK_THAT(deviation["do"].get<std::string>(), ContainsSubstring("enter it again"));
    }
    copies.rk("hold-point HV --what 'dead' --before J01");
    copies.rk("item CL1 --what clip --count 4");
    CHECK(copies.of_rule("struck apart").empty());
    CHECK(copies.run("item --json").json()["items"][0]["missing"] == 1);
    // What was proved of the one that is struck opens nothing of the new one.
    CHECK(copies.run("out J01/1").code == 1);
    // From here on they are known like any other.
    CHECK(copies.run("hold-point HV --what 'dead'").code == 1);
    CHECK(copies.run("item CL1 --what clip --count 4").code == 1);
  }
}

TEST_CASE("what another photograph shows goes on from none that was struck", "[cli]") {
  Copies copies;
  const auto photographs = [&](const char* file) {
    for (const auto* where : {"J01", "machine"}) {
      copies.trial.typed = picture_file(file);
      copies.rk(std::string("photo ") + where + " -");
    }
  };
  photographs("mark.png");
  copies.part();
  copies.dv("strike 5 --why 'that was J02'");
  copies.dv("strike 6 --why 'blurred'");
  photographs("mark.jpg");
  copies.merge();
  CHECK(copies.of_rule("struck apart").empty());
  CHECK(copies.run("photo --json").json()["photographs"].size() == 2);
}

TEST_CASE("a table holds the joint that was struck here and worked on there", "[cli]") {
  Copies copies;
  copies.part();
  copies.dv("strike 3 --why 'there is no such joint'");
  copies.rk("out J01/1 --broke normal");
  copies.rk("found J01/1 70s 76s 80o --wrench TW1");
  copies.merge();
  CHECK(copies.run("show J01").code == 0);
  CHECK_THAT(copies.told("export joints"), ContainsSubstring("J01"));
  CHECK_THAT(copies.told("export findings"), ContainsSubstring("J01"));
}

TEST_CASE("a line that was put right twice is one hold, of its own id", "[cli]") {
  Copies copies;
  copies.rk("out J01/1-6 --bag A1");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 56");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 57 --replace 6 --why '57 it was'");
  copies.dv("tighten J01/1-6 --pass 1 --wrench TW1 --set 58 --replace 6 --why '58 it was'");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK_THAT(says(struck), ContainsSubstring("was struck in line 7 (RK) and in line 9 (DV)") &&
                               ContainsSubstring("line 8 (RK), line 10 (DV)"));
  const auto id = struck["id"].get<std::string>();
  copies.rk("settle " + id + " --as use-as-is --why 'done over anyway'");
  CHECK(copies.of_rule("struck apart").empty());
}

TEST_CASE("a test that was moved to two positions is a hold", "[cli]") {
  Copies copies;
  copies.rk("found J01/6 76s 79s 80o --wrench TW1");
  copies.part();
  copies.rk("found J01/5 --replace 5 --why 'it was 5'");
  copies.dv("found J01/4 --replace 5 --why 'it was 4'");
  copies.merge();
  const auto struck = copies.one_of_rule("struck apart");
  CHECK(struck["level"] == "hold");
  CHECK_THAT(says(struck), ContainsSubstring("line 7 (RK), line 9 (DV)"));
}

TEST_CASE("of two tests made apart the worse counts, and every screen says so", "[cli]") {
  Copies copies;
  copies.dv("found J01/1 40s 46s 50o 53p --wrench TW1");
  copies.rk("found J01/1 76s 79s 80o 82p --wrench TW1");
  copies.merge();
  CHECK(copies.one_of_rule("found apart")["level"] == "hold");
  CHECK(copies.one_of_rule("found low")["positions"] == nlohmann::json({1}));
  for (const auto* command : {"compare", "compare J01", "show J01", "show J01/1"}) {
    CHECK_THAT(copies.said(command),
               ContainsSubstring("disputed") || ContainsSubstring("DISPUTED"));
  }
  const auto row = copies.run("compare --json").json()["rows"][0];
  CHECK(row["verdict"] == "low");
  CHECK(row["disputed"].size() == 2);
  copies.rk("strike 5 --why 'it was J02/1'");
  CHECK(copies.run("compare --json").json()["rows"][0]["verdict"] == "within");
  CHECK_THAT(copies.said("compare"), !ContainsSubstring("disputed"));
}

TEST_CASE("what came off and was entered on both sides is asked about, with one number", "[cli]") {
  Copies copies;
  copies.rk("item CL1 --what clip --count 6");
  copies.dv("item cl1 --what clip --count 6");
  copies.merge();
  const auto logged = copies.one_of_rule("logged apart");
  CHECK(logged["id"] == "logged-apart:item:cl1:off");
  CHECK_THAT(says(logged),
             ContainsSubstring("6 in line 5 (RK), 6 in line 6 (DV); all of it counts"));
  CHECK(copies.of_rule("two meanings").empty());
  CHECK(copies.run("item --json").json()["items"][0]["off"] == 12);
  copies.rk("strike 6 --why 'counted once'");
  CHECK(copies.of_rule("logged apart").empty());
}

TEST_CASE("of two meanings what differs is told, and every caution counts", "[cli]") {
  Copies copies;
  copies.dv("joint J09 --holds cover --size M12 --grade 8.8 --count 8 --critical --length 40mm");
  copies.rk("joint J09 --holds cover --size M12 --grade 8.8 --count 8 --spec '50 N·m'");
  copies.merge();
  const auto meanings = copies.one_of_rule("two meanings");
  CHECK_THAT(says(meanings),
             ContainsSubstring("--length 40mm in line 5 (DV), not given in line 6 (RK); --critical "
                               "yes in line 5 (DV), not given in line 6 (RK)") &&
                 !ContainsSubstring("--size") && !ContainsSubstring("--count"));
  CHECK_THAT(copies.said("show J09"), ContainsSubstring("critical"));
  CHECK(copies.run("show J09 --json").json()["joint"]["critical"] == true);
  copies.rk("strike 5 --why 'looked at: not critical'");
  CHECK(copies.of_rule("two meanings").empty());
  CHECK(copies.run("show J09 --json").json()["joint"]["critical"] == false);
}

TEST_CASE("two calibrations of one wrench are its history", "[cli]") {
  Copies copies;
  copies.trial.now += std::chrono::days(200);
  copies.dv("wrench TW1 --calibrated 2026-05-25 --found-off 9%");
  copies.rk("wrench TW1 --calibrated 2026-05-26");
  copies.merge();
  CHECK(copies.of_rule("two meanings").empty());
}

TEST_CASE("a wrench that was found off on one side alone warns before that is struck", "[cli]") {
  Copies copies;
  copies.trial.now += std::chrono::days(200);
  copies.dv("wrench TW1 --calibrated 2026-05-25 --found-off 9%");
  copies.rk("wrench TW1 --calibrated 2026-05-25");
  copies.merge();
  const auto meanings = copies.one_of_rule("two meanings");
  CHECK_THAT(says(meanings), ContainsSubstring("--found-off 9% in line 5 (DV)"));
  CHECK_THAT(meanings["do"].get<std::string>(),
             ContainsSubstring("line 5 alone tells that a calibration found it off"));
}

TEST_CASE("codes that differ in noughts alone are one hold", "[cli]") {
  Copies copies;
  copies.rk("joint J9 --holds cover --size M8 --grade 8.8 --count 6");
  copies.dv("joint J09 --holds cover --size M8 --grade 8.8 --count 6");
  copies.merge();
  const auto meanings = copies.one_of_rule("two meanings");
  CHECK(meanings["id"] == "two-meanings:joint:J09:alike");
  CHECK_THAT(says(meanings), ContainsSubstring("J9 in line 5 (RK), J09 in line 6 (DV)"));
  copies.rk("settle two-meanings:joint:J09:alike --as use-as-is --why 'two covers'");
  CHECK(copies.of_rule("two meanings").empty());
}

TEST_CASE("which specification counts is decided by when it was said", "[cli]") {
  Copies copies;
  copies.rk("joint J01 --spec '70 N·m' --source 'Book p. 9'");
  copies.dv("joint J01 --spec '90 N·m' --source 'Book p. 7' --at 2026-03-01T08:00");
  copies.merge();
  const auto disagree = copies.one_of_rule("sources disagree");
  CHECK_THAT(says(disagree),
             ContainsSubstring("the latest specification 70 N·m (line 5, Book p. 9) counts"));
  CHECK_THAT(copies.said("show J01"), ContainsSubstring("specified 70 N·m"));
  const auto settled =
      copies.run("settle sources-disagree:J01 --as use-as-is --why 'p. 9 is of this machine'");
  CHECK_THAT(settled.said(), ContainsSubstring("J01: 70 N·m (line 5) holds from now on"));
}

TEST_CASE("a code of two meanings is settled before its sources are", "[cli]") {
  Copies copies;
  copies.rk("joint J05 --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m'");
  copies.dv("joint J05 --holds breather --size M6 --grade 8.8 --count 6 --spec '9 N·m'");
  copies.merge();
  const auto audit = copies.run("audit --json").json()["deviations"];
  REQUIRE(audit.size() >= 2);
  CHECK(audit[0]["id"] == "two-meanings:joint:J05");
  CHECK(audit[1]["id"] == "sources-disagree:J05");
  CHECK_THAT(audit[1]["do"].get<std::string>(),
             ContainsSubstring("settle first what the code means"));
}

TEST_CASE("a decision that another copy did not know of says why it is open again", "[cli]") {
  Copies copies;
  copies.rk("found J01/1 40s 46s 50o 53p --wrench TW1");
  copies.part();
  copies.dv("settle found-low:J01/1 --as renew --why stretched");
  copies.rk("found J01/1 40s 44s 48o 52p --wrench TW1");
  copies.merge();
  const auto said = copies.said("audit");
  CHECK_THAT(said, ContainsSubstring("OPEN AGAIN: line 7 was not known to who decided: it is of "
                                     "another copy") &&
                       ContainsSubstring("to do unless it is decided anew: renew at 1") &&
                       !ContainsSubstring("counts no more") && !ContainsSubstring("to do of"));
}

TEST_CASE("what is open again of several positions is told by position", "[cli]") {
  Copies copies;
  copies.rk("found J01/1 60s 64s 65o 68p --wrench TW1");
  copies.rk("found J01/2 60s 64s 65o 68p --wrench TW1");
  copies.part();
  copies.rk("settle found-low:J01/1 --as use-as-is --why 'gasket settled'");
  copies.rk("settle found-low:J01/2 --as re-torque --why clean");
  copies.dv("out J01/1-6 --bag A1");
  copies.merge();
  CHECK_THAT(copies.said("audit"), ContainsSubstring("OPEN AGAIN at 1: line ") &&
                                       ContainsSubstring("OPEN AGAIN at 2: line "));
}

TEST_CASE("a pass tightened on both sides names what each set, and who", "[cli]") {
  Copies copies;
  copies.rk("out J01/1-6 --bag A1");
  copies.part();
  copies.rk("tighten J01/1-6 --pass 1 --wrench TW1 --set 56");
  copies.dv("tighten J01/1-6 --pass 1 --wrench TW1 --set 57");
  copies.merge();
  CHECK_THAT(says(copies.one_of_rule("tightened apart")),
             ContainsSubstring("pass 1 at 56 N·m in line 6 (RK), pass 1 at 57 N·m in line 7 (DV)"));
}

TEST_CASE("work behind a hold point names every line and who shut it", "[cli]") {
  Copies copies;
  copies.rk("hold-point HV --what 'dead' --before J01");
  copies.rk("hold-point HV --pass");
  copies.part();
  copies.dv("hold-point HV --close");
  copies.rk("out J01/1-3 --bag A1");
  copies.rk("out J01/4-6 --bag A1");
  copies.merge();
  CHECK_THAT(says(copies.one_of_rule("hold point")),
             ContainsSubstring("line 8 (RK), line 9 (RK); it was closed in line 7 by DV"));
}

TEST_CASE("a trial merge leads to what it found, not to an audit of what was not written",
          "[cli]") {
  Copies copies;
  for (const auto* code : {"J11", "J12", "J13", "J14", "J15", "J16", "J17", "J18", "J19", "J20",
                           "J21", "J22", "J23", "J24"}) {
    copies.rk(std::string("joint ") + code + " --holds a --size M8 --grade 8.8 --count 2");
    copies.dv(std::string("joint ") + code + " --holds b --size M8 --grade 8.8 --count 2");
  }
  const auto tried = copies.trial.done("merge " + copies.theirs + " --check --log " + copies.ours);
  CHECK_THAT(tried.told(),
             ContainsSubstring(" --check --json") && !ContainsSubstring("boltwitness audit\n"));
}

TEST_CASE("a table of contradicting copies is written with a note", "[cli]") {
  Copies copies;
  copies.rk("joint J09 --holds cover --size M8 --grade 8.8 --count 6");
  CHECK(copies.run("export joints").err.empty());
  copies.dv("joint J09 --holds flange --size M8 --grade 8.8 --count 8");
  copies.merge();
  const auto written = copies.run("export joints");
  CHECK(written.code == 0);
  CHECK_THAT(written.said(), ContainsSubstring("settle first two-meanings:joint:J09"));
}

TEST_CASE("a merge whose answer is lost says that it is done", "[cli]") {
  Copies copies;
  copies.dv("fluid oil --drained '2 L'");
  copies.trial.disk_is_full = true;
  const auto lost = copies.trial.run("merge " + copies.theirs + " --log " + copies.ours);
  copies.trial.disk_is_full = false;
  CHECK(lost.code == 3);
  CHECK_THAT(lost.said(), ContainsSubstring("the merge is done (1 line taken over)"));
}

TEST_CASE("Ctrl-C says that nothing was written, and waits while something is", "[cli]") {
  int ends[2] = {};
  REQUIRE(::pipe(ends) == 0);
  const auto child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::dup2(ends[1], STDERR_FILENO);
    {
      terminal::StopKey writing;
      writing.about_to_write();
      ::raise(SIGINT);
    }
    const terminal::StopKey stop_key;
    ::raise(SIGINT);
    ::_exit(7);
  }
  ::close(ends[1]);
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(WIFSIGNALED(status));
  CHECK(WTERMSIG(status) == SIGINT);
  std::string said(200, ' ');
  said.resize(static_cast<std::size_t>(::read(ends[0], said.data(), said.size())));
  ::close(ends[0]);
  CHECK(said == "\nboltwitness: stopped; nothing was written\n");
}

TEST_CASE("what is no copy is told for what it is", "[cli]") {
  Copies copies;
  const auto merge = [&](const std::string& file) {
    return copies.trial.run("merge " + file + " --log " + copies.ours);
  };
  CHECK_THAT(merge("-").said(), ContainsSubstring("save it as one first"));
  const auto empty = copies.trial.folder().file("empty.bolts");
  std::ofstream(empty).close();
  CHECK_THAT(merge(empty).said(), ContainsSubstring("is empty (0 bytes)"));
  const auto other = copies.trial.folder().file("other.bolts");
  copies.trial.done("start " + other + " --machine KW-7 --by LM");
  CHECK_THAT(merge(other).said(),
             ContainsSubstring("by LM, first hash") && ContainsSubstring("by KB, first hash"));
}

TEST_CASE("a signature says which lines of a merged log it was made over", "[cli]") {
  Copies copies;
  copies.dv("fluid oil --drained '2 L'");
  copies.rk("fluid water --drained '1 L'");
  copies.trial.environment["XDG_DATA_HOME"] = copies.trial.folder().file("home");
  copies.rk("sign");
  copies.merge();
  const auto verified = copies.run("verify");
  CHECK_THAT(verified.told(),
             ContainsSubstring("5 lines, the last of them line 6 here; not line 5"));
  CHECK(copies.run("verify --json").json()["signatures"][0]["over"] ==
        nlohmann::json::parse(R"([{"first":1,"last":4},{"first":6,"last":6}])"));
}

TEST_CASE("a joint whose copies contradict is not called done", "[cli]") {
  Copies copies;
  copies.dv("out J01/1-6 --bag A1");
  copies.rk("out J01/1-6 --broke loose --bag A1");
  copies.all_passes("RK", "J01/1-6");
  copies.rk("stripe J01/1-6 --wiped");
  copies.merge();
  const auto row = copies.run("status --json").json()["joints"][0];
  CHECK(row["next"] != "done");
}

}  // namespace copies_apart_test
