#include "support/transcript.h"

#include <fmt/format.h>

#include <fstream>
#include <regex>
#include <sstream>
#include <stdexcept>

#include "phone/desk.h"
#include "support/pictures.h"
#include "support/trial.h"
#include "support/tried_phone.h"

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kProgram = "boltwitness ";

// The current folder, until the end of the scope.
class CurrentFolder {
 public:
  explicit CurrentFolder(const fs::path& folder) : before_(fs::current_path()) {
    fs::current_path(folder);
  }
  ~CurrentFolder() {
    std::error_code ignored;
    fs::current_path(before_, ignored);
  }
  CurrentFolder(const CurrentFolder&) = delete;
  CurrentFolder& operator=(const CurrentFolder&) = delete;

 private:
  fs::path before_;
};

std::string without_program(const std::string& command) {
  if (command + ' ' == kProgram) return {};
  if (!command.starts_with(kProgram)) throw std::runtime_error("no command: " + command);
  return command.substr(kProgram.size());
}

// What differs from run to run, replaced: entry ids, the hashes made of them, and the folder of the
// bench.
std::string masked(std::string text, const std::string& folder) {
  for (auto at = text.find(folder); at != std::string::npos; at = text.find(folder, at)) {
    text.replace(at, folder.size(), "<folder>");
  }
  static const std::regex id("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
  static const std::regex hash("[0-9a-f]{64}");
  static const std::regex short_hash("hash [0-9a-f]{4}( [0-9a-f]{4}){3}");
  text = std::regex_replace(text, id, "<id>");
  text = std::regex_replace(text, hash, "<hash>");
  return std::regex_replace(text, short_hash, "hash <hash>");
}

std::string marked_lines(std::string_view mark, const std::string& text) {
  std::string result;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    result += fmt::format("{}{}{}\n", mark, line.empty() ? "" : " ", line);
  }
  if (!text.empty() && !text.ends_with('\n')) result += fmt::format("{}\\ no newline\n", mark);
  return result;
}

class Player {
 public:
  explicit Player(fs::path samples) : samples_(std::move(samples)) {
    bench_.now = record::read_moment("2025-06-01T08:00:00Z");
    bench_.environment["BOLTWITNESS_LOG"] = "gb1.bolts";
  }

  // The line as it stands in the replayed transcript, with what it answers where it is a command.
  std::string play(const std::string& line) {
    const std::string rest = line.size() > 2 ? line.substr(2) : "";
    if (line.starts_with("% ")) succeed(rest);
    if (line.starts_with("@ ")) set(rest);
    if (!line.starts_with("$ ")) return line + '\n';
    const CurrentFolder here(bench_.folder().path());
    const auto outcome = bench_.run(without_program(rest));
    const auto folder = bench_.folder().path().string();
    return fmt::format("{}\n{}{}= {}\n", line, marked_lines("|", masked(outcome.out, folder)),
                       marked_lines("!", masked(outcome.err, folder)), outcome.code);
  }

 private:
  void succeed(const std::string& command) {
    const CurrentFolder here(bench_.folder().path());
    bench_.done(without_program(command));
  }

  void set(const std::string& setting) {
    std::istringstream words(setting);
    std::string what;
    std::string value;
    words >> what >> value;
    if (what == "columns") {
      bench_.width = std::stoul(value);
    } else if (what == "now") {
      bench_.now = record::read_moment(value);
    } else if (what == "tap") {
      tap(value, words);
    } else if (what == "run") {
      run_sample(samples_ / value);
    } else if (what == "picture") {
      std::ofstream(bench_.folder().file(value), std::ios::binary) << picture_file(value);
    } else {
      throw std::runtime_error("no setting: " + setting);
    }
  }

  // What was tapped while the phone had no link comes in.
  void tap(const std::string& who, std::istringstream& words) {
    std::string at;
    std::string joint;
    std::string bag;
    int position = 0;
    words >> at >> joint >> position >> bag;
    phone::Place place;
    place.logbook = bench_.folder().file("gb1.bolts");
    place.folder = bench_.folder().path() / "own";
    place.now = [this] { return bench_.now; };
    place.device = [this] { return bench_.device; };
    phone::Desk desk(place);
    const auto answer = TriedPhone(desk, who).tap({{"kind", "out"},
                                                   {"joint", joint},
                                                   {"position", position},
                                                   {"broke", "normal"},
                                                   {"bag", bag}},
                                                  record::read_moment(at));
    if (answer.status != 200) throw std::runtime_error(answer.body);
  }

  void run_sample(const fs::path& file) {
    std::ifstream lines(file);
    if (!lines) throw std::runtime_error("no sample " + file.string());
    for (std::string line; std::getline(lines, line);) {
      if (!line.empty() && !line.starts_with('#')) succeed(line);
    }
  }

  fs::path samples_;
  Trial bench_;
};

bool is_answer(const std::string& line) {
  return line.starts_with('|') || line.starts_with('!') || line.starts_with("= ");
}

}  // namespace

std::string replayed(const std::string& transcript, const fs::path& samples) {
  Player player(samples);
  std::string result;
  std::istringstream lines(transcript);
  for (std::string line; std::getline(lines, line);) {
    if (!is_answer(line)) result += player.play(line);
  }
  return result;
}

std::string first_difference(const std::string& expected, const std::string& actual) {
  std::istringstream expected_lines(expected);
  std::istringstream actual_lines(actual);
  for (int number = 1;; ++number) {
    std::string wanted;
    std::string got;
    const bool more_wanted = static_cast<bool>(std::getline(expected_lines, wanted));
    const bool more_got = static_cast<bool>(std::getline(actual_lines, got));
    if (!more_wanted && !more_got) return {};
    if (more_wanted != more_got || wanted != got) {
      return fmt::format("line {}\n  expected: {}\n  actual:   {}", number,
                         more_wanted ? wanted : "(end)", more_got ? got : "(end)");
    }
  }
}
