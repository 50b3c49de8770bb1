#include "manual/examples.h"

#include <algorithm>
#include <sstream>

namespace manual {
namespace {

constexpr std::string_view kSee = "see: ";

std::vector<Examples> read_examples(std::string_view text) {
  std::vector<Examples> all;
  std::istringstream lines{std::string(text)};
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with('[')) {
      all.push_back({line.substr(1, line.find(']') - 1), {}, {}});
    } else if (all.empty() || line.empty()) {
      continue;
    } else if (line.starts_with(kSee)) {
      all.back().see = line.substr(kSee.size());
    } else {
      all.back().typed += line + '\n';
    }
  }
  return all;
}

}  // namespace

const std::vector<Examples>& examples() {
  static const auto all = read_examples(examples_text());
  return all;
}

const Examples* examples_of(std::string_view command) {
  const auto found = std::ranges::find(examples(), command, &Examples::command);
  return found == examples().end() ? nullptr : &*found;
}

}  // namespace manual
