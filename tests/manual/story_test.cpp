// The story of the manual, whole-job.md: what is typed there is typed here, at the time of day that
// it tells, and answers what stands below it. scripts/regenerate_golden writes the answers.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
#include "support/transcript.h"

namespace story_test {

namespace {

constexpr std::string_view kTimeOfDay = "<!-- it is ";
constexpr std::string_view kTapped = " tapped ";
constexpr std::string_view kTyped = "$ ";

// The rest of a command that is typed over several lines, each but the last ended by a backslash.
std::string rest_of(const std::string& first, std::istream& lines) {
  std::string rest;
  for (std::string line = first; line.ends_with('\\') && std::getline(lines, line);) {
    rest += line + '\n';
  }
  return rest;
}

// What the story sets and types, as a transcript without its answers.
std::string transcript_of(const std::string& page) {
  // Help sets it indented by two, on the narrowest terminal that pages are made for: 60.
  std::string result = "@ columns 58\n";
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(kTimeOfDay)) {
      result += fmt::format("@ now {}\n", line.substr(kTimeOfDay.size(), 20));
    } else if (const auto said = line.find(kTapped);
               line.starts_with("<!-- ") && said != std::string::npos) {
      constexpr std::size_t kBefore = 5;
      result += fmt::format(
          "@ tap {} {}\n", line.substr(kBefore, said - kBefore),
          line.substr(said + kTapped.size(), line.rfind(" -->") - said - kTapped.size()));
    } else if (line.starts_with(kTyped)) {
      auto command = line + '\n' + rest_of(line, lines);
      for (auto end = command.find("\\\n"); end != std::string::npos; end = command.find("\\\n")) {
        command.erase(end, command.find_first_not_of(' ', end + 2) - end);
      }
      std::ranges::replace(command, '"', '\'');  // as a transcript has it
      result += command;
    }
  }
  return result;
}

// The answer of the next command of a replayed transcript, as it looks on a terminal.
std::string next_answer(std::istringstream& replayed) {
  std::string line;
  while (std::getline(replayed, line) && !line.starts_with(kTyped)) {
  }
  std::string answer;
  while (std::getline(replayed, line) && !line.starts_with("= ")) {
    answer += line.size() > 2 ? line.substr(2) + '\n' : "\n";
  }
  if (line != "= 0") answer += fmt::format("(exit code {})\n", line.substr(2));
  return answer;
}

// The page with every answer as it comes out today.
std::string told_again(const std::string& page) {
  std::istringstream replayed_lines(replayed(transcript_of(page), BOLTWITNESS_SAMPLES));
  std::istringstream lines(page);
  std::string result;
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    const bool fence = line.starts_with("```");
    if (fence) inside = !inside;
    if (!inside || fence) {
      result += line + '\n';
    } else if (line.starts_with(kTyped)) {
      result += line + '\n' + rest_of(line, lines) + next_answer(replayed_lines);
    }
  }
  return result;
}

}  // namespace

TEST_CASE("the story of a whole job comes out as it is told", "[manual][story]") {
  const auto file = std::filesystem::path(BOLTWITNESS_MANUAL) / "whole-job.md";
  const auto page = content_of(file);
  const auto today = told_again(page);
  CHECK(today.find("Finished: nothing is open") != std::string::npos);
  if (std::getenv("BOLTWITNESS_REGENERATE") == nullptr) {
    CHECK(first_difference(page, today) == "");
  } else if (today != page) {
    std::ofstream(file) << today;
    WARN("rewritten: src/manual/whole-job.md");
  }
}

}  // namespace story_test
