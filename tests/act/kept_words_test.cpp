// A line put right keeps what is not said anew, for every kind that is entered with options; what
// was kept can be left out by --without; before and after are told.

#include <nlohmann/json.hpp>

#include "logbook/recording.h"
#include "support/catch.h"
#include "support/trial.h"

namespace kept_words_test {

namespace {

// A joint of four that is back at its final value, on a logbook with one wrench.
class Cover {
 public:
  Cover() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p3.bolts");
    trial.done("start " + trial.folder().file("p3.bolts") + " --machine 'pump 3'");  // 1
    trial.done(
        "wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m' --serial 4711 --accuracy 3% "
        "--calibrated 2026-02-02 --valid 24mo");  // 2
    trial.done(
        "joint J01 --holds cover --size M8x1.25 --grade 8.8 --count 4 --layout "
        "'rectangle 2x2' --spec '25 N·m' --source 'drawing 7'");            // 3, 4
    trial.done("out J01/1-4 --broke tight --bag B1 --note 'scored head'");  // 5
  }

  // Runs the correction; both the line before and the one after have to be told.
  Outcome corrected(const std::string& command, int line) {
    const auto outcome =
        trial.done(command + " --replace " + std::to_string(line) + " --why 'misread'");
    CHECK_THAT(outcome.said(),
               ContainsSubstring("line " + std::to_string(line) + ", now struck, said: "));
    return outcome;
  }

  nlohmann::json line(int number) {
    const auto history = trial.done("history --json").json();
    for (const auto& each : history["lines"]) {
      if (each["line"] == number) return each;
    }
    return {};
  }

  // The number of the line written last.
  int last() { return trial.done("history --json").json()["lines"].back()["line"].get<int>(); }

  Trial trial;
};

}  // namespace

TEST_CASE("a count said anew and unchanged keeps layout and order", "[act]") {
  Cover cover;
  cover.trial.done(
      "joint J02 --holds lid --size M8x1.25 --grade 8.8 --count 4 --layout 'rectangle 2x2' --order "
      "1,4,2,3");  // 6
  cover.corrected("joint J02 --count 4 --holds plate", 6);
  const auto shown = cover.trial.done("export joints").out;
  CHECK_THAT(shown, ContainsSubstring("J02,plate,M8x1.25,,8.8,4,rectangle 2x2"));
  CHECK_THAT(shown, ContainsSubstring("\"1,4,2,3\""));
  // Another count does not fit them: it is refused, and can be said anew or left out.
  const auto other = cover.trial.run("joint J02 --count 6 --replace 8 --why counted");
  CHECK(other.code == 2);
  CHECK_THAT(other.said(), ContainsSubstring("rectangle 2x2 cannot hold 6 positions"));
  cover.trial.done("joint J02 --count 6 --replace 8 --why counted --without layout,order");
  CHECK_THAT(cover.trial.done("export joints").out,
             ContainsSubstring("J02,plate,M8x1.25,,8.8,6,circle"));
}

TEST_CASE("a tightening put right keeps wrench, setting, pass and time", "[act]") {
  Cover cover;
  cover.trial.done(
      "tighten J01/1-2 --wrench TW1 --set 25 --at 2026-05-31T10:00Z --extension 50mm "
      "--wrench-length 300mm");  // 6
  const auto before = cover.line(6);
  const auto after = cover.corrected("tighten J01/1-3", 6);
  CHECK_THAT(after.out, ContainsSubstring("J01/1-3") && ContainsSubstring("TW1") &&
                            ContainsSubstring("25") && ContainsSubstring("50"));
  CHECK(cover.line(8)["done_at"] == before["done_at"]);
  const auto bare = cover.corrected("tighten J01/1-3 --without extension", 8);
  CHECK_THAT(bare.out, !ContainsSubstring("extension"));
  // Set after all, it was not left out.
  cover.trial.done("tighten J01/4 --skip 'no room'");  // 11 and its strike before
  const auto done = cover.corrected("tighten J01/4 --wrench TW1 --set 25", cover.last());
  CHECK_THAT(done.out, !ContainsSubstring("no room"));
}

TEST_CASE("a stripe and a look put right keep mark, counter and turn", "[act]") {
  Cover cover;
  while (cover.trial.run("tighten J01/1-4").code == 0) continue;
  cover.trial.done("stripe J01/1-3 --not-wiped --counter '1240 running h'");
  const auto stripe = cover.corrected("stripe J01/1-4", cover.last());
  CHECK_THAT(stripe.out, ContainsSubstring("1240 running h"));
  CHECK_THAT(stripe.said(), ContainsSubstring("two marks stand on these now"));
  const auto wiped = cover.corrected("stripe J01/1-4 --wiped --without counter", cover.last());
  CHECK_THAT(wiped.out, !ContainsSubstring("1240"));
  CHECK_THAT(wiped.said(), !ContainsSubstring("two marks"));
  cover.trial.done("recheck J01/1 'turned 20°' --counter '1290 running h'");
  const auto look = cover.corrected("recheck J01/2", cover.last());
  CHECK_THAT(look.out, ContainsSubstring("J01/02") && ContainsSubstring("20°") &&
                           ContainsSubstring("1290 running h"));
}

TEST_CASE("a fluid, an item and a hold point put right keep the rest", "[act]") {
  Cover cover;
  cover.trial.done("fluid oil --drained '1.2 L' --note 'dark'");  // 6
  CHECK_THAT(cover.corrected("fluid 'gear oil'", 6).out, ContainsSubstring("gear oil") &&
                                                             ContainsSubstring("1.2 L") &&
                                                             ContainsSubstring("dark"));
  CHECK_THAT(cover.corrected("fluid 'gear oil' --drained '1.3 L' --without note", cover.last()).out,
             ContainsSubstring("1.3 L") && !ContainsSubstring("dark"));

  cover.trial.done("item CL1 --what 'hose clips' --count 4 --before J01");
  CHECK_THAT(cover.corrected("item CL1 --count 5", cover.last()).out,
             ContainsSubstring("hose clips") && ContainsSubstring("J01"));
  cover.trial.done("item CL1 --back 3");
  CHECK_THAT(cover.corrected("item CL1 --back 4", cover.last()).out, ContainsSubstring("4 back"));

  cover.trial.done("hold-point HV --what 'proved dead' --wait 10min --before J01");
  const int entered = cover.last();
  CHECK_THAT(
      cover.corrected("hold-point HV --wait 20min", entered).out,
      ContainsSubstring("proved dead") && ContainsSubstring("20 min") && ContainsSubstring("J01"));
  CHECK_THAT(cover.corrected("hold-point HV --without wait", cover.last()).out,
             ContainsSubstring("proved dead") && !ContainsSubstring("20 min"));
  cover.trial.done("hold-point HV --pass --note 'two-pole tester'");
  CHECK_THAT(cover.corrected("hold-point HV --note 'tester 12'", cover.last()).out,
             ContainsSubstring("passed") && ContainsSubstring("tester 12"));
}

TEST_CASE("one field of a wrench is put right without the rest", "[act]") {
  Cover cover;
  cover.corrected("wrench TW1 --serial 4712", 2);
  CHECK_THAT(cover.trial.done("export wrenches").out,
             ContainsSubstring("TW1,5..60 N·m,0.5 N·m,setting,3%,4712,2026-02-02,24 mo"));
  // A scale alone, in the same unit.
  CHECK_THAT(cover.corrected("wrench TW1 --range '6..60 N·m'", cover.last()).out,
             ContainsSubstring("6..60 N·m") && ContainsSubstring("0.5 N·m"));
  // In another unit the graduation is another one.
  const auto unit = cover.trial.run("wrench TW1 --range '4..45 ft·lbf' --replace " +
                                    std::to_string(cover.last()) + " --why misread");
  CHECK(unit.code == 2);
  CHECK_THAT(unit.said(), ContainsSubstring("--graduation"));
  cover.corrected("wrench TW1 --without serial,calibrated", cover.last());
  const auto left = cover.trial.done("export wrenches").out;
  CHECK_THAT(left, ContainsSubstring("TW1,6..60 N·m,0.5 N·m,setting,3%,,,24 mo"));
}

TEST_CASE("what was kept is left out by --without, whatever the kind", "[act]") {
  Cover cover;
  const auto out = cover.corrected("out J01/1-4 --without note --without broke", 5);
  CHECK_THAT(out.out, ContainsSubstring("bag B1") && !ContainsSubstring("scored head") &&
                          !ContainsSubstring("tight"));
  const auto unknown = cover.trial.run("out J01/1-4 --replace 7 --why x --without colour");
  CHECK(unknown.code == 2);
  CHECK_THAT(unknown.said(), ContainsSubstring("no such thing to leave out; it may be broke"));
  const auto both = cover.trial.run("out J01/1-4 --bag B2 --replace 7 --why x --without bag");
  CHECK(both.code == 2);
  CHECK(cover.trial.run("out J01/1-4 --without bag").code == 2);
  CHECK_THAT(cover.trial.done("out --help").out, ContainsSubstring("--without OPTION"));
  const auto source = cover.corrected("joint J01 --without source", 4);
  CHECK_THAT(source.out, !ContainsSubstring("drawing 7"));
}

TEST_CASE("an adapter of which an earlier version kept words alone outlives a correction",
          "[act]") {
  Cover cover;
  record::Measured measured;
  measured.joint = "J01";
  measured.position = 1;
  measured.wrench = "TW1";
  measured.readings = record::read_readings("20s 22s 23o", std::nullopt);
  measured.readings_typed = "20s 22s 23o";
  record::AdapterTold told;
  told.words = "crowfoot, one and a half inch";
  measured.adapter = {1.125, std::make_shared<const record::AdapterTold>(std::move(told))};
  {
    auto logbook = logbook::Logbook::open_to_write(cover.trial.folder().file("p3.bolts"));
    const auto moment = cover.trial.now;
    logbook::Recording recording(logbook, {"KB", std::string(36, 'd'), moment, moment});
    CHECK(recording.append(measured).line == 6);
    recording.commit();
  }
  const auto kept = cover.corrected("found J01/1 --wrench TW1 --neighbours tight", 6);
  CHECK_THAT(kept.out, ContainsSubstring("crowfoot, one and a half inch"));
  const auto job = logbook::Logbook::open_to_read(cover.trial.folder().file("p3.bolts")).job();
  REQUIRE(job.findings.size() == 1);
  CHECK(job.findings[0].content.adapter.torque_ratio == 1.125);
  const auto left = cover.corrected("found J01/1 --wrench TW1 --without extension", 8);
  CHECK_THAT(left.out, !ContainsSubstring("crowfoot"));
}

TEST_CASE("one measure of an adapter is put right without the others", "[act]") {
  Cover cover;
  cover.trial.done(
      "found J01/1 20s 22s 23o --wrench TW1 --extension 50mm --wrench-length 300mm "
      "--adapter-angle 90");  // 6
  const auto after = cover.corrected("found J01/1 --wrench TW1 --extension 60mm", 6);
  CHECK_THAT(after.out,
             ContainsSubstring("60mm") && ContainsSubstring("300mm") && ContainsSubstring("90"));
}

}  // namespace kept_words_test
