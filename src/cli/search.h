#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct SearchOptions {
  std::vector<std::string> words;
  bool whole = false;
  bool json_lines = false;
};

void declare_search(CLI::App& command, Pending& pending);
[[nodiscard]] int run_search(const SearchOptions& options, const terminal::Session& session);

}  // namespace cli
