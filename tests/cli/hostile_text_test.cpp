// Text that acts (escape sequences, marks of direction, characters without width, formulas) is
// refused at entry, and comes out inert wherever it got in from: a file made by another tool, a
// table, the name of a file, the command line.

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "quantity/visible_text.h"
#include "support/acting.h"
#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace hostile_text_test {

namespace {

const std::vector<std::string> kHidden = {
    "\x1b[2J", "\u009B2J", "\u202Egpj", "\u2066",     "\u200B", "\uFEFF", "\u2028", "\U000E0041",
    "\uFE0F",  "\u2800",   "\uE000",    "\U0010FFFF", "\r",     "\n",     "\x7f",   "\xff"};

}  // namespace

TEST_CASE("text that acts is refused at entry and told by its number", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("joint J06 --holds cap --size M8 --grade 8.8 --count 4 --spec '20 N·m'");
  const auto* command =
      GENERATE("joint J07 --holds 'a{}b' --size M8 --grade 8.8 --count 4",
               "joint J07 --holds cap --size M8 --grade 'a{}b' --count 4",
               "joint J06 --spec '22 N·m' --source 'a{}b'", "out J06/1 --note 'a{}b'",
               "out J06/1 --bag 'a{}b'", "out J06/1 --by 'a{}b'", "strike 2 --why 'a{}b'",
               "wrench 'a{}b' --range '1..20 N·m' --graduation '1 N·m'",
               "wrench TW --range '1..20 N·m' --graduation '1 N·m' --serial 'a{}b'",
               "fluid 'a{}b' --drained 1l", "fluid oil --drained 1l --note 'a{}b'",
               "item CL1 --what 'a{}b' --count 3", "hold-point HV --what 'a{}b'");
  for (const auto& hidden : kHidden) {
    auto typed = std::string(command);
    typed.replace(typed.find("{}"), 2, hidden);
    const auto refused = trial.run(typed);
    INFO(quantity::visible(typed) << ": " << refused.err);
    CHECK(refused.code == 2);
    CHECK(acting_in(refused.err).empty());
  }
  CHECK_THAT(trial.run("out J06/1 --note 'a\u202Eb'").said(), ContainsSubstring("U+202E"));
}

TEST_CASE("what another tool put into a logbook comes out inert everywhere", "[cli][slow]") {
  Trial trial;
  run_sample_job(trial);
  forge(trial.environment["BOLTWITNESS_LOG"],
        "UPDATE joint SET holds = 'cap ' || char(0x202E) || 'gpj.' || char(0x200B, 0x2067);"
        "UPDATE removal SET note = 'seen' || char(10) || 'line 999: J06/1 out', bag = char(0xFEFF);"
        "UPDATE wrench SET serial = '=HYPERLINK(1)' || char(0x2028);"
        "UPDATE logbook_start SET machine = machine || char(0x061C, 0xE0041);"
        "UPDATE entry SET by_whom = by_whom || char(0x2069)");
  for (const std::string command :
       {"status", "history --whole", "audit", "compare", "show J06", "show J06/3", "search cap",
        "sequence", "renew", "recheck", "export joints", "export wrenches", "export", "tighten"}) {
    for (const std::string json : {"", " --json"}) {
      const auto answer = trial.run(command + json);
      INFO(command << json << answer.err);
      CHECK(acting_in(answer.out).empty());
      CHECK(acting_in(answer.err).empty());
      CHECK(answer.out.find("\nline 999") == std::string::npos);
    }
  }
  for (const std::string page : {"report", "sheet", "labels", "sequence --html"}) {
    const auto answer = trial.done(page);
    INFO(page);
    CHECK(acting_in(answer.out, true).empty());
    CHECK(answer.out.find("\u2067") == std::string::npos);
  }
  // JSON says to the letter what is there, and a table nothing that computes.
  const auto joint = trial.run("show J06 --json").out;
  CHECK_THAT(joint, ContainsSubstring("\\u202egpj"));
  CHECK_THAT(trial.done("export joints").out, ContainsSubstring("cap <U+202E>gpj"));
  CHECK_THAT(trial.done("export wrenches").out, ContainsSubstring(",'=HYPERLINK(1)<U+2028>,"));
  // And a copy brings all of it back.
  trial.done("export --to " + trial.folder().file("copy.json"));
  trial.done("import " + trial.folder().file("copy.json") + " --log " +
             trial.folder().file("again.bolts"));
  CHECK(trial.done("export --log " + trial.folder().file("again.bolts")).out ==
        trial.done("export").out);
}

TEST_CASE("nothing that a file, a table or the command line is called acts on a terminal",
          "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  for (const auto& hidden : kHidden) {
    for (const std::string& command :
         {fmt::format("import 'no{}file'", hidden), fmt::format("status --log 'no{}file'", hidden),
          fmt::format("show 'J{}06'", hidden), fmt::format("search 'a{}b'", hidden),
          fmt::format("'a{}b'", hidden), fmt::format("status '--a{}b'", hidden),
          fmt::format("convert '80{}'", hidden), fmt::format("help 'a{}b'", hidden),
          fmt::format("report --out '/no{}folder/file'", hidden)}) {
      const auto answer = trial.run(command);
      INFO(quantity::visible(command));
      CHECK(acting_in(answer.out).empty());
      CHECK(acting_in(answer.err).empty());
      CHECK(answer.code != 0);
    }
    trial.typed = fmt::format("joint,\"ho{}lds\",count\nJ06,\"c{}ap\",4\n", hidden, hidden);
    const auto refused = trial.run("import -");
    INFO(quantity::visible(refused.err));
    CHECK(acting_in(refused.err).empty());
    CHECK(refused.code == 2);
  }
}

}  // namespace hostile_text_test
