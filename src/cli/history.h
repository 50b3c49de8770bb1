#pragma once

#include <string>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct HistoryOptions {
  std::string address;
  bool whole = false;
  bool json_lines = false;
};

void declare_history(CLI::App& command, Pending& pending);
[[nodiscard]] int run_history(const HistoryOptions& options, const terminal::Session& session);

}  // namespace cli
