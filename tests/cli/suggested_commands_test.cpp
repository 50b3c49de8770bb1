// Every command that an answer tells somebody to type is complete and does what is said: it is run
// as printed, on a copy of the logbook that the answer was about.

#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "support/catch.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace suggested_commands_test {

namespace {

namespace fs = std::filesystem;

// The answer as if its lines had no end.
std::string unwrapped(const Outcome& outcome) {
  const auto text = std::regex_replace(outcome.out + "\n" + outcome.err, std::regex("\n +"), " ");
  // The one gap that is told with what goes into it: what the machine's counter shows.
  return std::regex_replace(text, std::regex("\"READING "), "\"999999 ");
}

// What stands in quotes after the program's name, or behind a colon or "then" as verb and address.
// A form with a gap to fill ("...", "LINE") is no command yet.
std::set<std::string> suggested_in(const std::string& text) {
  static const std::regex kQuoted("\"boltwitness ([^\"]+)\"");
  static const std::regex kBare(
      "(?:: |then )((?:stripe|tighten|out|renew|recheck|bench|show|hold-point|item|strike|settle) "
      "(?:[a-z-]+:)?[A-Z0-9][A-Za-z0-9-]*(?:/[0-9,-]+)?(?: (?:--[a-z-]+|aligned|\"[0-9]+ "
      "(?:running "
      "h|km|mi)\"))*)(?=[.;,)\n]|$)");
  static const std::regex kGap("\\.\\.\\.|--help|[A-Z]{4}");
  std::set<std::string> commands;
  for (const auto* pattern : {&kQuoted, &kBare}) {
    for (auto match = std::sregex_iterator(text.begin(), text.end(), *pattern);
         match != std::sregex_iterator(); ++match) {
      const auto command = (*match)[1].str();
      if (std::regex_search(command, kGap)) continue;
      commands.insert(std::regex_replace(command, std::regex("\""), "'"));
    }
  }
  return commands;
}

bool only_reads(const std::string& command) {
  for (const auto* verb : {"audit", "sequence", "show", "history", "renew", "status", "compare"}) {
    if (command == verb || command.starts_with(std::string(verb) + " ")) {
      return command.find("--arrived") == std::string::npos;
    }
  }
  return false;
}

// Runs what the answers about this logbook suggest, each on a copy of its own.
class Suggestions {
 public:
  // `refused` where one may be refused since another joint comes first: then it says which.
  explicit Suggestions(Trial& trial, bool refused = false)
      : trial_(trial), log_(trial.environment["BOLTWITNESS_LOG"]), may_be_refused_(refused) {}

  // The answer itself, whatever it returned.
  void of(const std::string& command) {
    const auto answer = trial_.run(command);
    for (const auto& suggested : suggested_in(unwrapped(answer))) {
      if (!seen_.insert(suggested).second) continue;
      INFO(command << " suggests: " << suggested);
      const auto copy = trial_.folder().file("copy.bolts");
      fs::copy_file(log_, copy, fs::copy_options::overwrite_existing);
      trial_.environment["BOLTWITNESS_LOG"] = copy;
      const auto outcome = trial_.run(suggested);
      trial_.environment["BOLTWITNESS_LOG"] = log_;
      INFO(outcome.err);
      // Reading answers 1 where something is not in order; what records must record.
      CHECK(outcome.code <= (only_reads(suggested) || may_be_refused_ ? 1 : 0));
      if (outcome.code == 1 && !only_reads(suggested)) {
        CHECK_THAT(outcome.said(), ContainsSubstring("finish it first"));
      }
      if (only_reads(suggested)) CHECK(!outcome.out.empty());
    }
  }
  // What tells how the job stands as a whole.
  void of_the_whole() {
    for (const auto* command :
         {"audit", "audit --all", "audit --why", "sequence", "sequence --status", "tighten",
          "compare", "recheck", "renew", "hold-point", "item", "fluid"}) {
      of(command);
    }
  }
  void of_all_answers() {
    of_the_whole();
    for (const auto* command : {"show J06", "show J06/1", "show J06/2", "stripe J06/1-4 --wiped",
                                "recheck J06/1-4 aligned", "found J06/1 --wrench TW2 --next"}) {
      of(command);
    }
  }

  [[nodiscard]] std::size_t count() const { return seen_.size(); }

 private:
  Trial& trial_;
  std::string log_;
  bool may_be_refused_;
  std::set<std::string> seen_;
};

}  // namespace

TEST_CASE("every suggested command runs as printed", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  Suggestions suggestions(trial);
  suggestions.of_all_answers();  // nothing entered yet
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J06 --holds cover --size M12x1.75 --length 90mm --grade 8.8 --count 4 --spec '80 N·m' "
      "--recheck '7 days'");
  suggestions.of_all_answers();
  SECTION("while it comes apart") {
    trial.done("out J06/1-3");
    suggestions.of_all_answers();  // one is missing
    trial.done("out J06/4");
    trial.done("found J06/1 '60s 65s 70o' --wrench TW2");
    trial.done("found J06/2 '30s 35s' --wrench TW2");
    suggestions.of_all_answers();
  }
  SECTION("while it goes back, is looked at, and turned") {
    trial.done("out J06/1-4");
    trial.done("tighten J06/1-4");
    suggestions.of_all_answers();  // stripes are refused
    trial.done("tighten J06/1-4");
    trial.done("tighten J06/1-4");
    suggestions.of_all_answers();  // stripes are missing
    trial.done("stripe J06/1-4 --wiped");
    trial.now += std::chrono::days(8);
    suggestions.of_all_answers();  // a look is due
    trial.done("recheck J06/2 'turned 20°'");
    suggestions.of_all_answers();
    suggestions.of("recheck J06/3 'turned 5°'");
  }
  SECTION("with new ones to buy and too much torque") {
    trial.done("out J06/1-3");
    trial.done("out J06/4 --broke sheared");
    suggestions.of_all_answers();
    trial.done("tighten J06/1-4 --set 95");
    suggestions.of_all_answers();
  }
  SECTION("behind a hold point") {
    trial.done("hold-point HV --what 'store discharged' --before J06");
    suggestions.of_all_answers();
    suggestions.of("tighten J06/1");
  }
  CHECK(suggestions.count() > 1);
}

TEST_CASE("every suggested command of the sample job runs as printed, at each stage",
          "[cli][slow]") {
  // Set up; half apart; apart, tested and decided on; half back.
  for (const std::string_view until :
       {"2025-05-12T12:00", "2025-05-13T12:00", "2025-05-20T23:00", "2025-05-22T12:00"}) {
    INFO("up to " << until);
    Trial trial;
    run_sample_job(trial, until);
    Suggestions suggestions(trial, true);
    suggestions.of_the_whole();
    const auto counts = trial.run("sequence --status --json").json()["joints"];
    REQUIRE(counts.size() == 16);
    for (const auto& joint : counts) {
      const auto code = joint["joint"].get<std::string>();
      const auto all = code + "/1-" + std::to_string(joint["count"].get<int>());
      suggestions.of("show " + code);
      suggestions.of("stripe " + all + " --wiped");
      suggestions.of("recheck " + all + " aligned");
    }
    CHECK(suggestions.count() > 1);
  }
}

TEST_CASE("an empty logbook is neither finished nor in order", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  const auto status = trial.run("sequence --status");
  CHECK(status.code == 1);
  CHECK_THAT(status.out, ContainsSubstring("nothing entered yet"));
  const auto standing = trial.run("tighten");
  CHECK(standing.code == 1);
  CHECK(standing.out.find("every pass is done") == std::string::npos);
}

}  // namespace suggested_commands_test
