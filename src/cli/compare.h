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

struct CompareOptions {
  std::vector<std::string> joints;
  bool all_units = false;
  bool whole = false;
  std::string other;
};

void declare_compare(CLI::App& command, Pending& pending);
[[nodiscard]] int run_compare(const CompareOptions& options, const terminal::Session& session);

}  // namespace cli
