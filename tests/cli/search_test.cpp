#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace search_test {

namespace {

void fill(Trial& trial) {
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  trial.done(
      "wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --serial SN-4711 --calibrated "
      "2026-03-02");
  trial.done(
      "joint J06 --holds 'Gehäuse, case split' --size M12 --grade 8.8 --count 4 --spec '80 Nm' "
      "--source 'Shop Manual rev C p. 15'");
  trial.done("out J06/1-2 --bag D1 --note 'hardly any effort' --by LM");
  trial.done("out J06/3 --bag D7 --note 'thread pulled'");
  trial.done("strike 6 --why 'it was position 4'");
}

std::vector<int> found(Trial& trial, const std::string& words) {
  std::vector<int> numbers;
  const auto answer = trial.run("search " + words + " --json").json();
  for (const auto& line : answer["lines"]) numbers.push_back(line["line"].get<int>());
  return numbers;
}

}  // namespace

TEST_CASE("search finds every line by what was typed in it", "[cli]") {
  Trial trial;
  fill(trial);
  CHECK(found(trial, "gearbox") == std::vector{1});
  CHECK(found(trial, "sn-4711") == std::vector{2});
  CHECK(found(trial, "gehause") == std::vector{3});
  CHECK(found(trial, "80 nm") == std::vector{4});
  CHECK(found(trial, "shop manual 15") == std::vector{4});
  CHECK(found(trial, "D1") == std::vector{5});
  CHECK(found(trial, "hardly eff") == std::vector{5});
  CHECK(found(trial, "'position 4'") == std::vector{6});  // why line 6 was struck
  CHECK(found(trial, "lm") == std::vector{5});
}

TEST_CASE("search tells line, joint and words, struck lines struck", "[cli]") {
  Trial trial;
  fill(trial);
  const auto text = trial.done("search thread pulled").out;
  CHECK_THAT(text, ContainsSubstring("6  J06: STRUCK") && ContainsSubstring("*thread* *pulled*"));
  const auto line = trial.done("search thread pulled --json").json()["lines"][0];
  CHECK(line["joint"] == "J06");
  CHECK(line["struck"]["why"] == "it was position 4");
  CHECK_THAT(line["passage"].get<std::string>(), ContainsSubstring("*thread* *pulled*"));
}

TEST_CASE("an address that is looked for points to what shows all about it", "[cli]") {
  Trial trial;
  fill(trial);
  const auto see = [&](const std::string& words) {
    return trial.run("search " + words + " --json").json()["see"].get<std::vector<std::string>>();
  };
  using Commands = std::vector<std::string>;
  CHECK(see("J06/3") == Commands{"history J06/03", "show J06/03"});
  CHECK(see("j06") == Commands{"history J06", "show J06"});
  CHECK(see("J06/1-2") == Commands{"history J06/1-2", "show J06"});
  for (const auto* words : {"J06/5", "J07", "J07/1", "effort", "hardly J06/3"}) {
    INFO(words);
    CHECK(see(words).empty());
  }
  const auto text = trial.run("search J06").out;
  CHECK(text.ends_with("all about it: \"boltwitness history J06\", \"boltwitness show J06\"\n"));
  for (const auto& command : see("J06/1-2")) trial.done(command);
}

TEST_CASE("search exits 1 where nothing is found, 2 where nothing is asked", "[cli]") {
  Trial trial;
  fill(trial);
  const auto nothing = trial.run("search threadlocker");
  CHECK(nothing.code == 1);
  CHECK(nothing.out.empty());
  CHECK_THAT(nothing.err, ContainsSubstring("no line holds \"threadlocker\""));
  const auto json = trial.run("search threadlocker --json");
  CHECK(json.code == 1);
  CHECK(json.json()["lines"].empty());
  CHECK(trial.run("search ' '").code == 2);
  CHECK(trial.run("search").code == 2);
  CHECK(trial.run("search '\"'").code == 1);
}

}  // namespace search_test
