#include "support/bench.h"
#include "support/catch.h"

namespace {

// Two joints, a finding that is struck and entered again at another position.
void fill(Bench& bench) {
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m'");
  bench.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  bench.done("joint J07 --holds lid --size M8 --grade 8.8 --count 2");
  bench.done("out J06/1-4 --bag A --by LM");
  bench.done("found J06/03 60s 80o --wrench TW2");
  bench.done("found J06/04 60s 80o --wrench TW2 --replace 7 --why 'wrong position'");
}

}  // namespace

TEST_CASE("history shows every line, struck ones struck, with who and why", "[cli]") {
  Bench bench;
  fill(bench);
  const auto lines = bench.done("history --json").json()["lines"];
  REQUIRE(lines.size() == 8);
  CHECK(lines[0]["says"].get<std::string>().starts_with("logbook for GB-1"));
  CHECK(lines[5]["by"] == "LM");
  CHECK(lines[6]["line"] == 7);
  CHECK(lines[6]["struck"]["line"] == 8);
  CHECK(lines[6]["struck"]["why"] == "wrong position");
  CHECK(lines[7]["line"] == 9);
  CHECK(lines[7]["struck"].is_null());
  const auto text = bench.done("history").out;
  CHECK_THAT(text, ContainsSubstring("STRUCK J06/03") && ContainsSubstring("wrong position"));
}

TEST_CASE("history of a position keeps to what concerns it", "[cli]") {
  Bench bench;
  fill(bench);
  const auto numbers = [&](const std::string& address) {
    std::vector<int> found;
    const auto answer = bench.done("history " + address + " --json").json();
    for (const auto& line : answer["lines"]) {
      found.push_back(line["line"].get<int>());
    }
    return found;
  };
  CHECK(numbers("j06") == std::vector{3, 4, 6, 7, 9});
  CHECK(numbers("J06/3") == std::vector{3, 4, 6, 7});
  CHECK(numbers("J06/1-2") == std::vector{3, 4, 6});
  CHECK(numbers("J07") == std::vector{5});
  CHECK(bench.run("history J09").code == 1);
  const auto beyond = bench.run("history J06/99");
  CHECK(beyond.code == 2);
  CHECK_THAT(beyond.said(), ContainsSubstring("J06 has the positions 1 to 4; 99 is none of them"));
}
