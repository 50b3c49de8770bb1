// Answers with --json of every command, for tests/scripts/json_schema_test, which holds them
// against schema/json/: of the sample job, of one with each deed in it, and of made-up logbooks.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "fleet/question.h"
#include "logbook/logbook.h"
#include "phone/phones.h"
#include "support/catch.h"
#include "support/every_deed.h"
#include "support/fleet_trial.h"
#include "support/forged_logbook.h"
#include "support/random_logbook.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace json_answers_test {

namespace {

// Types commands and keeps what they answer, one answer a line with the command that gave it.
class Asked {
 public:
  explicit Asked(const std::string& file) : answers_(file, std::ios::app) {}

  void ask(Trial& trial, const std::string& command) {
    const bool in_lines = command.find("--json-lines") != std::string::npos;
    const auto outcome = trial.run(in_lines ? command : command + " --json");
    INFO(command << ": " << outcome.err);
    REQUIRE(outcome.code < 4);
    if (!in_lines) return keep(command, outcome.out);
    std::istringstream lines(outcome.out);
    for (std::string line; std::getline(lines, line);) keep(command, line);
  }

 private:
  // A command that was refused answers nothing.
  void keep(const std::string& command, const std::string& answer) {
    if (answer.empty()) return;
    answers_ << nlohmann::json({{"command", command}, {"answer", nlohmann::json::parse(answer)}})
             << '\n';
    REQUIRE(answers_);
  }

  std::ofstream answers_;
};

// What can be asked of any logbook, but for its places.
void ask_of_all(Trial& trial, Asked& asked) {
  for (const auto* command : {"status",
                              "show",
                              "compare",
                              "audit --all --why",
                              "recheck",
                              "sequence",
                              "sequence --explain",
                              "wrench",
                              "joint",
                              "renew",
                              "fluid",
                              "item",
                              "hold-point",
                              "tighten",
                              "history",
                              "history --json-lines",
                              "search a",
                              "search a --json-lines",
                              "verify",
                              "export",
                              "export --json-lines"}) {
    asked.ask(trial, command);
  }
}

void ask_of_joint(Trial& trial, const std::string& code, Asked& asked) {
  asked.ask(trial, "show " + code);
  asked.ask(trial, "show " + code + "/1");
  asked.ask(trial, "history " + code);
}

// Besides, of its first joints.
void ask_of_job(Trial& trial, std::size_t joints, Asked& asked) {
  ask_of_all(trial, asked);
  const auto listed = trial.run("joint --json").json()["joints"];
  for (std::size_t i = 0; i < std::min(joints, listed.size()); ++i) {
    ask_of_joint(trial, listed[i]["joint"], asked);
  }
}

void ask_of_sample_job(Asked& asked) {
  Trial trial;
  const auto file = [&](const std::string& name) { return trial.folder().file(name); };
  run_sample_job(trial, "2025-05-21T09:10");
  ask_of_job(trial, 3, asked);
  for (const auto* page : {"sheet", "report", "labels", "sequence --html", "help --html"}) {
    asked.ask(trial, fmt::format("{} --out {}", page, file("page.html")));
  }
  Trial whole;
  run_sample_job(whole);
  ask_of_job(whole, 1, asked);
  asked.ask(trial, "compare --with " + whole.folder().file("gb1.bolts"));
  std::filesystem::copy_file(file("gb1.bolts"), file("copy"));
  trial.device = "00000000-0000-4000-8000-000000000002";
  trial.done("fluid 'gear oil' --drained '1 L' --log " + file("copy"));
  trial.done("fluid 'gear oil' --drained '1.2 L'");
  asked.ask(trial, "merge " + file("copy") + " --check");
  asked.ask(trial, "merge " + file("copy"));
  asked.ask(trial, "export findings --to " + file("findings.csv"));
  asked.ask(trial, "import " + file("findings.csv") + " --check");
  asked.ask(trial, "export --to " + file("whole.json"));
  std::filesystem::create_directory(file("man"));
  asked.ask(trial, "help --man " + file("man"));
  asked.ask(trial, "import " + file("whole.json") + " --log " + file("again.bolts"));
  asked.ask(trial, "sign --by KB");
  asked.ask(trial, "backup");
  const auto last = trial.run("verify --json").json()["last"]["hash"].get<std::string>();
  asked.ask(trial, "verify --against " + last.substr(0, 16) + " --line 1");
  asked.ask(trial, "verify --against 0000111122223333");
}

void ask_deeds(Asked& asked) {
  Trial trial;
  const auto log = trial.folder().file("pump.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.environment["XDG_DATA_HOME"] = trial.folder().file("data");
  for (const auto& deed : every_deed(trial.folder(), log)) {
    trial.typed = deed.typed;
    if (deed.typed.empty()) {
      asked.ask(trial, deed.command);
    } else {
      trial.done(deed.command);  // a guide has no --json
    }
  }
  for (const auto* command :
       {"joint J01 --recheck '7 days'", "recheck J01/1 'turned 15°'",
        "found J02/1 20s --wrench TW1 --next", "found J05/2 20s 22s --wrench TW1 --next",
        "joint J05 --holds cover --size M8x1.25 "
        "--grade 8.8 --count 4 --length 60mm --replace 7 --why 'with its length'",
        "stripe J05/1 --wiped", "recheck J05/1 'turned 15°'"}) {
    asked.ask(trial, command);
  }
  asked.ask(trial, "photo");
  const auto shown = trial.run("photo --json").json()["photographs"].back()["line"].get<int>();
  asked.ask(trial, fmt::format("photo {} --to {}", shown, trial.folder().file("given.png")));
  asked.ask(trial, "tighten J05");
  asked.ask(trial, "serve --phones");
  const auto logbook = logbook::Logbook::open_to_read(log).first_id();
  (void)phone::Phones(trial.folder().path() / "data" / "boltwitness")
      .admit("RM", logbook, trial.now);
  asked.ask(trial, "serve --phones");
  asked.ask(trial, "serve --forget RM");
  ask_of_job(trial, 3, asked);
}

void ask_of_unreadable(Asked& asked) {
  Trial trial;
  const auto log = trial.folder().file("pump.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine 'pump 4'");
  trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
  forge(log, "UPDATE joint SET layout = 'spiral'");
  asked.ask(trial, "history");
  asked.ask(trial, "history --json-lines");
}

void ask_without_logbook(Asked& asked) {
  Trial trial;
  for (const auto* command :
       {"convert '70 ft·lbf'", "convert '9 kgf·m' --to in·lbf",
        "adapter --torque '135 in·lbf' --length 10in --extension 1.5in", "bolt M10 --grade 8.8",
        "bolt M12x1.75 --grade 8.8 --torque '80 N·m' --condition oiled",
        "bolt 3/8-16 --grade 'SAE 5' --friction 0.10..0.16", "bolt M8 --grade A2-70",
        "bolt M10 --grade 8.8 --condition threadlocker --torque '40 N·m'",
        "bolt M10 --grade 8.8 --into 'EN AC-46000' --engaged 18mm", "help", "help words"}) {
    asked.ask(trial, command);
  }
}

}  // namespace

namespace {

// Of the questions alone where no server can be started.
void ask_of_fleet(Asked& asked) {
  Trial alone;
  asked.ask(alone, "fleet");
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  std::string logbooks;
  for (int number = 1; number <= 3; ++number) {
    const auto path = fleet.path(fmt::format("m{}.bolts", number));
    write_logbook(path, fmt::format("GB-{}", number), job_of_machine(number));
    logbooks += ' ' + path;
  }
  std::ofstream(fleet.path("none.bolts")) << "no logbook";
  asked.ask(fleet.trial, fmt::format("fleet load --to {}{} {}", fleet.address, logbooks,
                                     fleet.path("none.bolts")));
  for (const auto& question : fleet::questions()) {
    asked.ask(fleet.trial, fmt::format("fleet ask {} --from {} --at 2027-01-01T12:00Z",
                                       question.word, fleet.address));
  }
}

}  // namespace

TEST_CASE("answers with --json are kept in BOLTWITNESS_ANSWERS", "[.answers]") {
  const char* file = std::getenv("BOLTWITNESS_ANSWERS");
  REQUIRE(file != nullptr);
  Asked asked(file);
  ask_without_logbook(asked);
  ask_deeds(asked);
  ask_of_sample_job(asked);
  ask_of_unreadable(asked);
  ask_of_fleet(asked);
  for (unsigned seed = 0; seed < 5; ++seed) {
    Trial trial;
    const auto log = trial.folder().file("made_up.bolts");
    make_random_logbook(log, seed);
    trial.environment["BOLTWITNESS_LOG"] = log;
    ask_of_job(trial, 1, asked);
  }
}

}  // namespace json_answers_test
