// boltwitness adapter, and adapters on found and sequence.

#include <nlohmann/json.hpp>

#include "support/property.h"
#include "support/trial.h"

namespace adapter_command_test {

namespace {

Trial& with_joint(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m' "
      "--source 'GB-1 Shop Manual rev C p. 12' --condition oiled");
  return trial;
}

}  // namespace

TEST_CASE("the adapter command gives the published settings", "[cli]") {
  // Source: a helicopter maintenance manual, chapter 20 (WE10: 117.39 and 158.82); US Army TM
  // 9-2350-261-20-1 (40 lbf.ft, 12 in, 4 in: 30); US Navy training manuals 14315 (100 lbf.in, 12
  // in, 6 in: 66.67) and 14008 (square to the wrench: no change).
  Trial trial;
  const auto setting = [&](const std::string& words) {
    const auto json = trial.done("adapter --json " + words).json();
    return std::pair{json["setting"].get<double>(), json["setting_unit"].get<std::string>()};
  };
  const auto straight = setting("--torque '135 in·lbf' --length 10in --extension 1.5in");
  CHECK_THAT(straight.first, WithinAbs(117.39, 0.005));
  CHECK(straight.second == "in·lbf");
  CHECK_THAT(setting("--torque '135 in·lbf' --length 10in --extension 1.5in --angle 180").first,
             WithinAbs(158.82, 0.005));
  CHECK_THAT(setting("--torque '40 ft·lbf' --length 12in --extension 4in").first,
             WithinAbs(30, 1e-9));
  CHECK_THAT(setting("--torque '100 in·lbf' --length 12in --extension 6in").first,
             WithinAbs(66.67, 0.005));
  for (const auto* angle : {"90", "90°", "-90", "'90 deg'", "'1/4 turn'"}) {
    INFO(angle);
    CHECK_THAT(setting(std::string("--torque '135 in·lbf' --length 10in --extension 1.5in "
                                   "--angle ") +
                       angle)
                   .first,
               WithinAbs(135, 1e-9));
  }
}

TEST_CASE("the adapter command shows the formula with its numbers and its limits", "[cli]") {
  Trial trial;
  const auto text = trial.done("adapter --torque '135 in·lbf' --length 10in --extension 1.5in").out;
  CHECK_THAT(text, ContainsSubstring("set the wrench to 117.4 in·lbf = 13.26 N·m"));
  CHECK_THAT(text, ContainsSubstring("S = T L/(L + E cos a) = 135 in·lbf x 254 mm"));
  CHECK_THAT(text, ContainsSubstring("square drive") && ContainsSubstring("117 for 117.4"));
}

TEST_CASE("an adapter that cannot be is refused", "[cli]") {
  Trial trial;
  for (const auto* words : {
           "--torque '-135 in·lbf' --length 10in --extension 1.5in",
           "--torque '0 N·m' --length 10in --extension 1.5in",
           "--torque 135 --length 10in --extension 1.5in",
           "--torque '135 in·lbf' --length 10 --extension 1.5in",
           "--torque '135 in·lbf' --length 0in --extension 1.5in",
           "--torque '135 in·lbf' --length -10in --extension 1.5in",
           "--torque '135 in·lbf' --length 10in --extension -1.5in",
           "--torque '135 in·lbf' --length 10in --extension 10in --angle 180",
           "--torque '135 in·lbf' --length 10in --extension 1in --angle 181",
           "--torque '135 in·lbf' --length 10in --extension 1in --angle flat",
           "--torque '135 in·lbf' --length 10in --extension 1in --angle '90° 3'",
           "--torque '135 in·lbf' --length 10in",
       }) {
    INFO(words);
    const auto outcome = trial.run(std::string("adapter ") + words);
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK_FALSE(outcome.err.empty());
  }
}

TEST_CASE("a finding through an adapter counts at the fastener", "[cli]") {
  Trial trial;
  with_joint(trial);
  // Ratio by hand: (350 + 40)/350 = 1.1143; 70 and 72 on the wrench are 78.00 and 80.23.
  const auto text =
      trial.done("found J06/1 70s 72o --wrench TW2 --extension 40mm --wrench-length 350mm --parts")
          .out;
  CHECK_THAT(text, ContainsSubstring("through extension 40mm at 0° on a wrench of 350mm"));
  CHECK_THAT(text, ContainsSubstring("1.114"));
  const auto found = trial.done("compare --json").json()["rows"][0]["found"];
  CHECK_THAT(found["best_nm"].get<double>(), WithinAbs(72 * 390.0 / 350.0, 1e-9));
  CHECK(trial.run("found J06/2 70s 72o --wrench TW2 --extension 40mm").code == 2);
  CHECK(trial.run("found J06/2 70s 72o --wrench TW2 --wrench-length 350mm").code == 2);
  CHECK(trial.run("found J06/2 70s 72o --wrench TW2 --adapter-angle 90").code == 2);
}

TEST_CASE("the plan sets the wrench for the adapter", "[cli]") {
  Trial trial;
  with_joint(trial);
  const auto steps =
      trial.done("sequence J06 --extension 40mm --wrench-length 350mm --json").json()["steps"];
  const auto& last = steps[steps.size() - 1];
  CHECK(last["target_nm"] == 80.0);
  CHECK(last["setting"] == 72.0);  // 80 x 350/390 = 71.79, on the graduation
  CHECK_THAT(last["applied_nm"].get<double>(), WithinAbs(80.23, 0.005));
  CHECK_THAT(last["adapter"].get<std::string>(), ContainsSubstring("40mm"));
  const auto plain = trial.done("sequence J06 --json").json()["steps"];
  CHECK(plain[plain.size() - 1]["setting"] == 80.0);
  CHECK(plain[plain.size() - 1]["adapter"].is_null());
  CHECK_THAT(trial.done("sequence J06 --extension 40mm --wrench-length 350mm").out,
             ContainsSubstring("Every setting is through extension 40mm"));
  CHECK(trial.run("sequence --extension 40mm --wrench-length 350mm").code == 2);
}

TEST_CASE("any words make the adapter command answer or refuse", "[cli]") {
  Trial trial;
  holds_always("exit 0 with JSON, or exit 2 with a message and nothing else", [&] {
    const auto word = [](std::vector<std::string> usual) {
      const auto wild = rc::gen::container<std::string>(
          rc::gen::elementOf(std::string("0123456789./,-° '·Nminft\xC2\xFF")));
      return *rc::gen::oneOf(rc::gen::elementOf(std::move(usual)), wild);
    };
    const auto outcome =
        trial.run("adapter --json --torque " + word({"80Nm", "70ft-lb", "99999999999999999kNm"}) +
                  " --length " + word({"350mm", "10in"}) + " --extension " +
                  word({"40mm", "9in", "900m"}) + " --angle " + word({"0", "90°", "-45", "180"}));
    RC_ASSERT(outcome.code == 0 || outcome.code == 2);
    if (outcome.code == 0) {
      RC_ASSERT(outcome.json().contains("setting"));
    } else {
      RC_ASSERT(outcome.out.empty());
    }
  });
}

}  // namespace adapter_command_test
