#include "support/trial.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <utility>

#include "cli/run.h"
#include "network/here.h"
#include "support/catch.h"
#include "words/text.h"

namespace {

std::string in_one_line(const std::string& broken) {
  std::string text;
  for (const char c : broken) {
    const bool blank = c == '\n' || c == ' ';
    if (!blank) text += c;
    if (blank && !text.empty() && text.back() != ' ') text += ' ';
  }
  return text;
}

}  // namespace

std::string Outcome::told() const { return in_one_line(out); }

std::string Outcome::said() const { return in_one_line(err); }

nlohmann::json Outcome::json() const { return nlohmann::json::parse(out); }

Trial::Trial() : now(record::read_moment("2026-06-01T08:00:00Z")) {}

std::vector<std::string> words_of(const std::string& command_line) {
  std::vector<std::string> words;
  bool in_quotes = false;
  bool in_word = false;
  for (const char c : command_line) {
    if (c == '\'') {
      in_quotes = !in_quotes;
      if (!in_word) words.emplace_back();
      in_word = true;
    } else if (c == ' ' && !in_quotes) {
      in_word = false;
    } else {
      if (!in_word) words.emplace_back();
      in_word = true;
      words.back() += c;
    }
  }
  return words;
}

Outcome Trial::run(const std::string& command_line) {
  std::ostringstream out;
  std::ostringstream err;
  now += std::chrono::seconds(1);
  if (disk_is_full) out.setstate(std::ios::badbit);
  terminal::Context context{out,
                            err,
                            [this] { return now; },
                            [this](const char* name) -> std::optional<std::string> {
                              const auto found = environment.find(name);
                              if (found == environment.end()) return std::nullopt;
                              return found->second;
                            },
                            [this] { return device; },
                            login,
                            folder_is_gone ? std::filesystem::path() : folder_.path(),
                            width,
                            terminal,
                            [this]() -> std::optional<char> {
                              const auto line = next_line();
                              if (!line) return std::nullopt;
                              return line->empty() ? '\n' : line->front();
                            },
                            [this] { return next_line(); },
                            keyboard,
                            [this](std::chrono::milliseconds span) { now += span; },
                            {},
                            [this](std::size_t most) {
                              auto piece = typed.substr(0, most);
                              typed.erase(0, piece.size());
                              return piece;
                            },
                            false,
                            height,
                            patience};
  const int code = cli::run(words_of(command_line), context, network::here());
  return {code, out.str(), err.str()};
}

std::optional<std::string> Trial::next_line() {
  if (typed.empty()) return std::nullopt;
  const auto end = typed.find('\n');
  auto line = typed.substr(0, end);
  typed.erase(0, end == std::string::npos ? end : end + 1);
  return line;
}

Outcome Trial::done(const std::string& command_line) {
  auto outcome = run(command_line);
  INFO(command_line << "\n" << outcome.out << outcome.err);
  REQUIRE(outcome.code == 0);
  return outcome;
}

std::size_t widest_line(const std::string& text) {
  std::istringstream lines(text);
  std::size_t widest = 0;
  for (std::string line; std::getline(lines, line);) {
    widest = std::max(widest, words::display_width(line));
  }
  return widest;
}
