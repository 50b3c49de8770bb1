// What is entered, found or decided after the work was done still speaks about that work.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace changed_after_test {

namespace {

// Two bolts at 25 N·m, out; a wrench in calibration.
class Bench {
 public:
  explicit Bench(int count = 2) {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("x.bolts");
    trial.done("start " + trial.folder().file("x.bolts") + " --machine GB-1");
    trial.done("wrench W1 --range '10..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint G1 --holds cover --size M8 --length 60mm --grade 8.8 --count " +
               std::to_string(count) + " --spec '25 N·m' --source 'manual p. 4'");
    trial.done("out G1/1-2");
    later(60);
  }
  void later(int minutes) { trial.now += std::chrono::minutes(minutes); }
  // Every pass that is open, then nothing more.
  void tighten(const std::string& address) {
    while (trial.run("tighten " + address).code == 0) {
    }
    later(60);
  }
  void finish(const std::string& address = "G1/1-2") {
    tighten(address);
    trial.done("stripe " + address + " --wiped");
    later(60);
  }
  nlohmann::json deviation(const std::string& id) {
    const auto audit = trial.run("audit --all --json").json();
    for (const auto& each : audit["deviations"]) {
      if (each["id"] == id) return each;
    }
    return nullptr;
  }
  std::string ids() {
    std::string all;
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) all += each["id"].get<std::string>() + ' ';
    return all;
  }
  bool is_finished() { return trial.run("status").told().find("Finished:") != std::string::npos; }

  Trial trial;
};

}  // namespace

TEST_CASE("an over-torqued fastener is settled by what was decided and done", "[cli]") {
  Bench bench;
  bench.trial.done("tighten G1/1 --set 40");
  bench.later(10);
  const std::string id = "over-torqued:G1/01";
  SECTION("slackened and tightened again") {
    bench.trial.done("settle " + id + " --as re-torque --why 'thread and length are good'");
    bench.later(10);
    CHECK(bench.trial.run("audit --json").json()["to_do"].size() == 1);
    bench.finish();
    CHECK(bench.deviation(id)["settled"]["as"] == "re-torque");
  }
  SECTION("a new one fitted") {
    bench.trial.done("settle " + id + " --as renew --why 'stretched'");
    bench.trial.done("renew G1/1 --arrived");
    bench.later(10);
    bench.trial.done("out G1/1");
    bench.later(10);
    bench.finish();
  }
  SECTION("repaired") {
    bench.trial.done("settle " + id + " --as repair --why 'thread is to be looked at'");
    bench.later(10);
    bench.trial.done("settle " + id + " --done 'thread chased, gauge passes'");
    bench.later(10);
    bench.finish();
    CHECK(bench.deviation(id)["settled"]["as"] == "repair");
  }
  INFO(bench.ids());
  CHECK(bench.trial.run("audit").code == 0);
  CHECK(bench.is_finished());
}

TEST_CASE("an over-torqued fastener that is pulled too far once more is open again", "[cli]") {
  Bench bench;
  bench.trial.done("tighten G1/1 --set 40");
  bench.later(10);
  const std::string id = "over-torqued:G1/01";
  bench.trial.done("settle " + id + " --as re-torque --why 'thread and length are good'");
  bench.later(10);
  bench.trial.done("tighten G1/1 --set 38");
  CHECK(bench.deviation(id)["settled"].is_null());
  CHECK(bench.deviation(id)["settled_before"]["as"] == "re-torque");
}

TEST_CASE("a scale that was entered anew puts what was set on the old one in doubt", "[cli]") {
  Bench bench;
  bench.finish();
  REQUIRE(bench.is_finished());
  SECTION("in another unit") {
    bench.trial.done(
        "wrench W1 --range '10..200 ft·lbf' --graduation '1 ft·lbf' --replace 2 --why 'misread'");
  }
  SECTION("that does not reach so far") {
    bench.trial.done(
        "wrench W1 --range '4..20 N·m' --graduation '0.2 N·m' --replace 2 --why 'misread'");
  }
  const auto hold = bench.deviation("tightening-scale:G1:W1");
  REQUIRE_FALSE(hold.is_null());
  CHECK(hold["level"] == "hold");
  CHECK_THAT(hold["says"].get<std::string>(), ContainsSubstring("25 N·m, which is not on it"));
  CHECK_FALSE(bench.is_finished());
}

TEST_CASE("a wrench that was found off on the day of the work puts it in doubt", "[cli]") {
  Bench bench;
  SECTION("found off after the work") {
    bench.finish();
    bench.trial.done("wrench W1 --calibrated 2026-06-01 --found-off 20%");
    CHECK_THAT(bench.ids(), ContainsSubstring("wrench-found-off:G1:W1:2026-06-01"));
    CHECK_FALSE(bench.is_finished());
    bench.later(60);
    // More about the same calibration leaves what it found.
    bench.trial.done("wrench W1 --calibrated 2026-06-01 --accuracy 3%");
    CHECK_THAT(bench.ids(), ContainsSubstring("wrench-found-off:G1:W1:2026-06-01"));
    bench.trial.done("wrench W1 --calibrated 2026-06-01 --found-off 2%");
    CHECK(bench.ids().empty());
  }
  SECTION("found off and put right before the work") {
    bench.trial.done("wrench W1 --calibrated 2026-06-01 --found-off 20%");
    bench.later(60);
    bench.finish();
    bench.trial.done("wrench W1 --calibrated 2026-06-01 --accuracy 3%");
    CHECK(bench.ids().empty());
  }
}

TEST_CASE("a hole that stays empty and was tightened names the lines to correct", "[cli]") {
  Bench bench(3);
  bench.trial.done("out G1/3 --broke empty");
  bench.finish("G1/1-3");
  bench.trial.done("settle found-empty:G1/03 --as use-as-is --why 'never had one'");
  const auto decision = bench.deviation("found-empty:G1/03")["settled"]["line"].get<int>();
  const auto hold = bench.deviation("other-target:G1/03");
  REQUIRE_FALSE(hold.is_null());
  CHECK(bench.deviation("other-target:G1").is_null());
  CHECK_THAT(hold["do"].get<std::string>(),
             ContainsSubstring("strike " + std::to_string(decision) + " --why"));
  bench.trial.done("strike " + std::to_string(decision) + " --why 'a bolt is in'");
  CHECK_THAT(bench.ids(), !ContainsSubstring("other-target"));
}

TEST_CASE("what was tightened with a wrench without a calibration is to be looked at", "[cli]") {
  Bench bench;
  bench.finish();
  CHECK(bench.ids().empty());
  bench.trial.done("wrench W1 --replace 2 --without calibrated --why 'tag of another one'");
  const auto check = bench.deviation("tightened-out-of-calibration:G1:W1");
  REQUIRE_FALSE(check.is_null());
  CHECK(check["level"] == "check");
  CHECK_THAT(check["says"].get<std::string>(),
             ContainsSubstring("no calibration of it is on record"));
}

}  // namespace changed_after_test
