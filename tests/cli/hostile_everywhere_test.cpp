// Text that acts, at every option and word that is declared and in every column of text that the
// schema has: found by walking both, so that a new one is tried without being listed here.

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "cli/command_terms.h"
#include "cli/commands.h"
#include "cli/pending.h"
#include "network/here.h"
#include "quantity/visible_text.h"
#include "support/acting.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/every_deed.h"
#include "support/forged_logbook.h"
#include "support/torture.h"
#include "support/trial.h"

namespace hostile_everywhere_test {

namespace {

namespace fs = std::filesystem;

// Escapes, controls of 8 bits, marks of direction, none of width, line ends, tags, private use,
// bytes that are no UTF-8.
const std::vector<std::string> kHidden = {
    "\x1b[2J", "\u009B2J", "\u202Egpj", "\u2066",     "\u200B", "\uFEFF", "\u2028", "\U000E0041",
    "\uFE0F",  "\u2800",   "\uE000",    "\U0010FFFF", "\r",     "\n",     "\x7f",   "\xff"};

struct Declared {
  std::string command;
  std::string option;  // "--note"; empty for a word
  std::string value;   // what is given to it, as the help calls it
};

// Every option and word of every command that takes a value.
std::vector<Declared> declared() {
  const auto network = network::here();
  std::vector<Declared> all;
  for (const auto& part : cli::command_parts()) {
    for (const auto& command : part.commands) {
      CLI::App app;
      cli::Pending pending{.run = {}, .network = network};
      command.declare(app, pending);
      for (const auto* option : cli::options_of(app, true)) {
        all.push_back({command.name, {}, cli::value_of(*option)});
      }
      for (const auto* option : cli::options_of(app, false)) {
        if (option->get_items_expected_max() == 0 || option->get_lnames().empty()) continue;
        all.push_back({command.name, "--" + option->get_lnames().front(), cli::value_of(*option)});
      }
    }
  }
  return all;
}

// A logbook with lines of every kind, and what was in its folder.
class EveryKind {
 public:
  EveryKind() : log(trial.folder().file("p4.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = log;
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
    for (const auto& deed : every_deed(trial.folder(), log)) {
      trial.typed = deed.typed;
      trial.done(deed.command);
    }
    trial.typed.clear();
    for (const auto* command :
         {"joint J32 --holds lid --size M8 --grade 8.8 --count 2 --after J01 --covers J02 "
          "--recheck '7 "
          "days' --final-when 'in place'",
          "joint J01/2 --spec '24 N·m' --source 'drawing 8'", "out J02/2-4 --damaged-thread hole",
          "settle damaged-thread:J02/2,3 --as repair --why torn",
          "settle damaged-thread:J02/02 --done 'insert fitted'",
          "joint J31 --holds lid --size M8 --grade 8.8 --count 2 --spec '10 N·m, loosen, 20 N·m'",
          "out J31/1-2", "tighten J31/1-2 --pass 1", "hold-point HV --close --note 'on again'"}) {
      trial.done(command);
    }
    into_one_file(log);
    whole_ = content_of(log);
  }

  // The logbook as it was.
  void put_back() const {
    for (const auto* tail : {"-wal", "-shm", "-journal"}) fs::remove(log + tail);
    std::ofstream(log, std::ios::binary) << whole_;
  }

  Trial trial;
  std::string log;

 private:
  std::string whole_;
};

// What is typed for each command that takes free text, its parts parted by |: one that begins with
// the option that is tried gives way to it. Of an option that needs something else, by its name.
const std::map<std::string, std::string> kLines = {
    {"start", "start NEW|--machine x"},
    {"wrench", "wrench TW9|--range '1..20 N·m'|--graduation '1 N·m'"},
    {"joint", "joint J30|--holds cap|--size M8|--grade 8.8|--count 4|--spec '20 N·m'"},
    {"hold-point", "hold-point HX|--what dead"},
    {"hold-point --note", "hold-point HV|--pass"},
    {"out", "out J05/4"},
    {"fluid", "fluid wax|--drained 1l"},
    {"item", "item CL9|--what clips|--count 3"},
    {"photo", "photo J01/2 MARK"},
    {"settle", "settle damaged-thread:J02/04|--as repair|--why seen"},
    {"settle --done", "settle damaged-thread:J02/03"},
    {"tighten", "tighten J01/1|--pass 1"},
    {"tighten --seen", "tighten J31/1|--pass 2"},
    {"strike", "strike LINE|--why x"},
};

// With --why, which only a correction has, and the kind of line that is corrected.
const std::map<std::string, std::pair<std::string, std::string>> kCorrections = {
    {"wrench", {"wrench TW1|--serial 7", "wrench"}},
    {"joint", {"joint J31|--holds lid", "joint"}},
    {"hold-point", {"hold-point HV|--what shut", "hold point"}},
    {"out", {"out J31/1-2|--bag B", "removal"}},
    {"found", {"found J01/1 20s 25o 27p|--wrench TW1", "finding"}},
    {"fluid", {"fluid oil|--drained 2l", "fluid"}},
    {"item", {"item CL3|--what pins|--count 2", "item"}},
    {"photo", {"photo J01/2", "photograph"}},
    {"stripe", {"stripe J01/1|--not-wiped", "stripe"}},
    {"recheck", {"recheck J01/1 'turned 5°'", "recheck"}},
    {"renew", {"renew J02/1|--arrived", "renewal"}},
    {"tighten", {"tighten J31/1-2|--pass 1|--set 11", "tightening"}},
};

// A line in which only the value of this option is left to be said, at its end.
std::string line_for(const EveryKind& job, const std::string& command, const std::string& option) {
  std::string parts;
  const auto correction = kCorrections.find(command);
  if (option == "--why" && !kLines.contains(command + " --why") && command != "settle" &&
      command != "strike" && correction != kCorrections.end()) {
    parts = fmt::format("{}|--replace {}", correction->second.first,
                        last_line_of(job.log, correction->second.second));
  } else {
    const auto own = kLines.find(command + " " + option);
    const auto line = own != kLines.end() ? own : kLines.find(command);
    INFO("expected a line for this command, which takes free text: " << command << ' ' << option);
    REQUIRE(line != kLines.end());
    parts = line->second;
  }
  const std::map<std::string, std::string> meant = {
      {"NEW", job.trial.folder().file("new.bolts")},
      {"MARK", job.trial.folder().file("mark.png")},
      {"LINE", std::to_string(last_line_of(job.log, "fluid"))}};
  std::string line;
  for (std::size_t at = 0; at <= parts.size();) {
    const auto end = std::min(parts.find('|', at), parts.size());
    auto part = parts.substr(at, end - at);
    at = end + 1;
    if (part.starts_with(option + " ")) continue;
    for (const auto& [word, stands_for] : meant) {
      if (const auto found = part.find(word); found != std::string::npos) {
        part.replace(found, word.size(), stands_for);
      }
    }
    line += part + " ";
  }
  return line + option + " ";
}

// The lines of the logbook, and what each says.
std::string content_of_log(EveryKind& job) { return job.trial.run("history --whole").out; }

}  // namespace

TEST_CASE("no option or word of any command puts out text that acts", "[cli][slow]") {
  EveryKind job;
  auto& trial = job.trial;
  std::set<std::string> commands;
  const auto each_in = trials(5, 1);  // of the hidden ones, in turn
  std::size_t turn = 0;
  for (const auto& [command, option, value] : declared()) {
    commands.insert(command);
    for (const auto& hidden : kHidden) {
      if (turn++ % each_in != 0) continue;
      // Nothing is made under such a name that is then looked for.
      if (value == "FILE" || value == "FOLDER") continue;
      const auto typed = option.empty() ? fmt::format("{} 'a{}b'", command, hidden)
                                        : fmt::format("{} {} 'a{}b'", command, option, hidden);
      const auto answer = trial.run(typed);
      INFO(quantity::visible(typed) << "\n" << quantity::visible(answer.err));
      CHECK(answer.code <= 3);
      CHECK(acting_in(answer.out).empty());
      CHECK(acting_in(answer.err).empty());
    }
  }
  CHECK(commands.size() > 30);
}

TEST_CASE("text that acts is refused at every option of free text, and told by its number",
          "[cli][slow]") {
  EveryKind job;
  auto& trial = job.trial;
  std::set<std::string> tried;
  for (const auto& [command, option, value] : declared()) {
    // The fleet is only asked by it.
    if (value != "TEXT" || command == "fleet") continue;
    const auto line = line_for(job, command, option);
    const auto before = content_of_log(job);
    for (const auto& hidden : kHidden) {
      const auto typed = fmt::format("{}'a{}b'", line, hidden);
      const auto refused = trial.run(typed);
      INFO(quantity::visible(typed) << ": " << refused.err);
      CHECK(refused.code == 2);
      CHECK(acting_in(refused.err).empty());
      const auto character = quantity::first_hidden_in(hidden);
      CHECK_THAT(refused.said(), ContainsSubstring(character));
    }
    // More than anybody types, with nothing else wrong.
    const auto endless = trial.run(line + "'" + std::string(100'000, 'x') + "'");
    INFO(line << endless.err.substr(0, 300));
    CHECK(endless.code == 2);
    CHECK(endless.err.size() < 2'000);
    CHECK(content_of_log(job) == before);
    // The same line with a text that does nothing is taken, so that nothing else refuses it.
    const auto taken = trial.run(line + "'a b'");
    INFO(taken.err);
    CHECK(taken.code == 0);
    fs::remove(trial.folder().file("new.bolts"));
    job.put_back();
    tried.insert(command + ' ' + option);
  }
  CHECK(tried.size() >= 25);
}

TEST_CASE("text that acts in any column of text comes out inert everywhere, or is refused",
          "[cli][torture][slow]") {
  EveryKind job;
  auto& trial = job.trial;
  const auto columns = columns_of_text(job.log);
  CHECK(columns.size() > 70);
  std::string acting;
  for (const auto& hidden : kHidden) {
    if (hidden != "\xff") acting += hidden;
  }
  std::string quoted = "CAST(x'";
  for (const char c : acting) quoted += fmt::format("{:02x}", static_cast<unsigned char>(c));
  quoted += "' AS TEXT)";
  const std::vector<std::string> looks = {"history --whole",
                                          "status",
                                          "audit --all",
                                          "compare",
                                          "show J01",
                                          "show J01/1",
                                          "show J02/1",
                                          "search a",
                                          "sequence",
                                          "renew",
                                          "recheck",
                                          "fluid",
                                          "item",
                                          "hold-point",
                                          "photo",
                                          "wrench",
                                          "joint",
                                          "tighten",
                                          "verify",
                                          "export",
                                          "export joints",
                                          "export wrenches",
                                          "export findings",
                                          "export tightenings",
                                          "export --json-lines"};
  const std::vector<std::string> pages = {"report", "sheet", "labels", "sequence --html"};
  std::size_t answers = 0;
  std::size_t refused = 0;
  std::size_t faults = 0;
  std::string first;
  std::size_t number = 0;
  // Of the values and of the looks so many times fewer, in turn.
  const auto values_in = trials(4, 1);  // shares no factor with the three that there are
  const auto each_in = trials(5, 1);
  for (const auto& place : columns) {
    const auto& table = place.first;
    const auto& column = place.second;
    // At its end; behind 100 kB; in place of it.
    for (const auto& value : {fmt::format("\"{}\" || {}", column, quoted),
                              fmt::format("printf('%.*c', 100000, 'a') || {}", quoted), quoted}) {
      if (number++ % values_in != 0) continue;
      job.put_back();
      forge(job.log, fmt::format("UPDATE {} SET \"{}\" = {}", table, column, value));
      const auto look_at = [&](const std::string& command, bool is_page) {
        const auto answer = trial.run(command);
        ++answers;
        if (answer.code == 3) ++refused;
        std::string wrong;
        if (answer.code > 3) wrong = fmt::format("exit {}", answer.code);
        if (const auto acts = acting_in(answer.out, is_page); !acts.empty())
          wrong = acts + " in out";
        if (const auto acts = acting_in(answer.err); !acts.empty()) wrong = acts + " in err";
        if (!wrong.empty() && faults++ == 0) {
          first =
              fmt::format("{}.{} = {}: {}: {}", table, column, value.substr(0, 40), command, wrong);
        }
      };
      std::size_t turn = number;
      for (const auto& look : looks) {
        if (turn++ % each_in != 0) continue;
        look_at(look, false);
        if (!look.starts_with("export")) look_at(look + " --json", false);
      }
      for (const auto& page : pages) {
        if (turn++ % each_in == 0) look_at(page, true);
      }
    }
  }
  tell_torture("text that acts, in every column of text", answers,
               faults == 0 ? fmt::format("inert, {} of them refusals", refused) : first, faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(answers > refused);
}

}  // namespace hostile_everywhere_test
