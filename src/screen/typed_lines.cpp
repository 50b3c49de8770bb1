#include "screen/typed_lines.h"

#include <algorithm>
#include <vector>

#include "words/given_width.h"
#include "words/text.h"

namespace screen {
namespace {

constexpr std::string_view kTypedIndent = "  ";
constexpr std::string_view kGoesOn = "      ";

// Words as the shell sees them: a blank within quotes parts nothing.
std::vector<std::string> shell_words(std::string_view command) {
  std::vector<std::string> words(1);
  char quote = 0;
  for (const char next : command) {
    if (quote == 0 && next == ' ') {
      if (!words.back().empty()) words.emplace_back();
      continue;
    }
    if (next == quote) {
      quote = 0;
    } else if (quote == 0 && (next == '"' || next == '\'')) {
      quote = next;
    }
    words.back() += next;
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

// An option stays beside what it is given.
std::vector<std::string> parts_of(std::string_view command) {
  std::vector<std::string> parts;
  bool option = false;
  for (const auto& word : shell_words(command)) {
    const bool begins = word.starts_with("--");
    if (option && !begins) {
      parts.back() += ' ' + word;
    } else {
      parts.push_back(word);
    }
    option = begins;
  }
  return parts;
}

std::string broken(std::string_view command, std::size_t width) {
  constexpr std::string_view kBreak = " \\";
  std::string text;
  std::string line(kTypedIndent);
  bool first = true;
  for (const auto& word : parts_of(command)) {
    const auto wide = words::given_width(line) + 1 + words::given_width(word) + kBreak.size();
    if (!first && wide > width) {
      text += line + std::string(kBreak) + '\n';
      line = kGoesOn;
      first = true;
    }
    line += (first ? "" : " ") + word;
    first = false;
  }
  return text + line + '\n';
}

std::string typed_line(std::string_view line, std::size_t width) {
  const auto whole = std::string(kTypedIndent) + std::string(line);
  if (words::given_width(whole) <= width || !line.starts_with("boltwitness ")) {
    return line.empty() ? "\n" : whole + '\n';
  }
  const auto beside = line.find(" # ");
  std::string text;
  if (beside != std::string_view::npos) {
    text += words::wrapped(line.substr(beside + 3), width, std::string(kTypedIndent) + "# ",
                           std::string(kTypedIndent) + "# ");
  }
  return text + broken(line.substr(0, beside), width);
}

}  // namespace

std::string typed_lines(std::string_view typed, std::size_t width) {
  std::string text;
  std::string goes_on;  // a command that is written over several lines is one
  while (!typed.empty()) {
    const auto line = typed.substr(0, typed.find('\n'));
    typed.remove_prefix(std::min(line.size() + 1, typed.size()));
    goes_on += line;
    if (goes_on.starts_with("boltwitness ") && goes_on.ends_with('\\')) {
      goes_on.pop_back();
      continue;
    }
    text += typed_line(goes_on, width);
    goes_on.clear();
  }
  return text;
}

}  // namespace screen
