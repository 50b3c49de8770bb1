// Calls of the system fail, outside SQLite too: files are opened, written, cut, made sure or
// renamed, and the disk says no. Whatever was to be done is done and told, or neither, and nothing
// half-made is left.

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "logbook/logbook.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/failing_call.h"
#include "support/pictures.h"
#include "support/torture.h"
#include "support/trial.h"

namespace failing_calls_test {

namespace {

namespace fs = std::filesystem;

constexpr std::array kCalls = {"open", "write", "ftruncate", "fsync", "rename"};

std::string content_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

// A folder with a logbook and what the deeds below need, copied anew for each trial.
class ReadyFolder {
 public:
  ReadyFolder() : ready_(trial_.folder().path() / "ready"), at_(trial_.folder().path() / "at") {
    fs::create_directories(ready_ / "copies");
    const auto log = (ready_ / "p4.bolts").string();
    trial_.environment["BOLTWITNESS_LOG"] = log;
    trial_.done("start " + log + " --machine 'pump 4'");
    trial_.done(
        "joint J01 --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m' --source x");
    trial_.done("backup " + (ready_ / "copies").string());
    fs::copy_file(log, ready_ / "apart.bolts");
    trial_.done("out J01/1 --log " + (ready_ / "apart.bolts").string());
    trial_.done("out J01/2");
    trial_.done("report --out " + (ready_ / "r.html").string());
    trial_.done("export --to " + (ready_ / "whole.json").string());
    std::ofstream(ready_ / "rows.csv") << "joint,holds,size,grade,count\nJ07,plate,M8,8.8,4\n";
    std::ofstream(ready_ / "p.png", std::ios::binary) << plain_png(24, 16, 90);
  }

  void lay_out() const {
    fs::remove_all(at_);
    fs::copy(ready_, at_, fs::copy_options::recursive);
    fs::remove(told());
  }
  [[nodiscard]] const fs::path& at() const { return at_; }
  [[nodiscard]] std::string log() const { return (at_ / "p4.bolts").string(); }
  [[nodiscard]] std::string told() const { return trial_.folder().file("told"); }

  // Everything there but the logbook itself, which is read as a logbook.
  [[nodiscard]] std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> files;
    for (const auto& file : fs::recursive_directory_iterator(at_)) {
      const auto name = fs::relative(file.path(), at_).string();
      if (!file.is_regular_file() || name.starts_with("p4.bolts-") || name == "p4.bolts") continue;
      files[name] = content_of(file.path());
    }
    return files;
  }

 private:
  Trial trial_;
  fs::path ready_;
  fs::path at_;
};

struct Deed {
  std::string line;  // AT stands for the folder
  bool names_its_logbook = false;
};

const std::vector<Deed>& deeds() {
  static const std::vector<Deed> kDeeds = {{"export --to AT/x.json"},
                                           {"report --out AT/r.html"},
                                           {"start AT/n.bolts --machine x", true},
                                           {"import AT/whole.json --log AT/n.bolts", true},
                                           {"import AT/rows.csv"},
                                           {"sign"},
                                           {"backup AT/copies --keep 1"},
                                           {"photo J01/1 AT/p.png"},
                                           {"merge AT/apart.bolts"},
                                           {"out J01/3 --bag B1"}};
  return kDeeds;
}

ProgramOutcome done_in(const ReadyFolder& folder, const Deed& deed,
                       const std::map<std::string, std::string>& failing) {
  auto words = words_of(deed.line);
  for (auto& word : words) {
    if (word.starts_with("AT/")) word = (folder.at() / word.substr(3)).string();
  }
  if (!deed.names_its_logbook) words.insert(words.end(), {"--log", folder.log()});
  Room room{.environment = failing};
  room.environment["XDG_DATA_HOME"] = (folder.at() / "data").string();
  room.environment["XDG_STATE_HOME"] = (folder.at() / "state").string();
  room.environment["BOLTWITNESS_BY"] = "KB";
  return run_program_in(room, words);
}

struct State {
  std::map<std::string, std::string> files;
  std::int64_t lines = 0;
  bool fits = false;
};

State state_of(const ReadyFolder& folder) {
  return {folder.files(), logbook::Logbook::open_to_read(folder.log()).last_line(),
          logbook::verify(folder.log()).fits()};
}

bool is_draft(const std::string& name) {
  return fs::path(name).filename().string().starts_with('.');
}

// What one keeps of one's own beside a deed that failed: the machine's id, which of the logbook's
// copies are known, the key.
bool is_own(const std::string& name) {
  return name.starts_with("state/") || name == "data/boltwitness/signing-key";
}

// What is wrong with what a trial left; empty for nothing.
std::string fault_of(const std::string& call, const ProgramOutcome& outcome, const State& before,
                     const State& after, const State& done) {
  if (!outcome.code) return "ended by a signal";
  if (!after.fits) return "the logbook does not fit";
  for (const auto& [name, content] : after.files) {
    if (is_draft(name)) return "a draft is left";
  }
  if (*outcome.code == 0) {
    if (after.lines != done.lines) return "told as done, and is not";
    if (after.files.size() != done.files.size() &&
        std::ranges::none_of(done.files, [](const auto& file) { return is_own(file.first); })) {
      return "told as done, and a file is missing";
    }
    return {};
  }
  // What cannot be opened to be read is bad input, or no page that may be replaced.
  if (*outcome.code != 3 && (call != "open" || *outcome.code > 3)) {
    return "exit " + std::to_string(*outcome.code);
  }
  if (outcome.err.empty() || !outcome.out.empty()) return "not told";
  if (after.lines != before.lines) return "told as refused, and lines are there";
  for (const auto& [name, content] : after.files) {
    const auto was = before.files.find(name);
    if (is_own(name) || (was != before.files.end() && was->second == content)) continue;
    // A page that took the place of another, which the disk did not confirm.
    if (name == "r.html" && content.ends_with("</html>\n")) continue;
    return name + " is left";
  }
  for (const auto& [name, content] : before.files) {
    if (!after.files.contains(name)) return name + " is gone";
  }
  return {};
}

}  // namespace

TEST_CASE("a call that fails is told, and nothing half-made is left", "[program][torture][slow]") {
  const ReadyFolder folder;
  std::size_t tried = 0;
  std::size_t refused = 0;
  std::map<std::string, std::string> faults;
  for (const auto& deed : deeds()) {
    folder.lay_out();
    const auto before = state_of(folder);
    REQUIRE(done_in(folder, deed, {}).code == 0);
    const auto done = state_of(folder);
    for (const std::string call : kCalls) {
      FailingCall failing{call, folder.at().string(), 1U << 20U};
      folder.lay_out();
      REQUIRE(done_in(folder, deed, failing.environment(folder.told())).code == 0);
      const auto calls = calls_told(folder.told()).calls;
      const auto most = trials(3, 400);
      const auto step = std::max<std::size_t>(1, (calls + most - 1) / most);
      for (const bool lasting : {false, true}) {
        failing.lasting = lasting;
        failing.code = lasting ? ENOSPC : EIO;
        for (failing.number = 0; failing.number < calls; failing.number += step) {
          // In short each call fails in one of the two ways.
          if (trials(1, 2) == 1 && (failing.number / step % 2 == 1) != lasting) continue;
          folder.lay_out();
          const auto outcome = done_in(folder, deed, failing.environment(folder.told()));
          if (!calls_told(folder.told()).failed) continue;
          ++tried;
          if (outcome.code != 0) ++refused;
          const auto fault = fault_of(call, outcome, before, state_of(folder), done);
          if (!fault.empty()) {
            faults[deed.line + ", " + call + " " + std::to_string(failing.number) + " of " +
                   std::to_string(calls) + (lasting ? " on" : "") + ": " + fault] = outcome.err;
          }
        }
      }
    }
  }
  tell_torture("calls of the system failing below 10 deeds", tried,
               std::to_string(refused) + " told and undone, the rest done all the same",
               faults.size());
  for (const auto& [what, told] : faults) UNSCOPED_INFO(what << '\n' << told);
  CHECK(faults.empty());
  CHECK(refused > 0);
}

}  // namespace failing_calls_test
