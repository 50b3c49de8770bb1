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

struct StrikeOptions {
  std::vector<std::string> lines;
  std::string why;
};

void declare_strike(CLI::App& command, Pending& pending);
[[nodiscard]] int run_strike(const StrikeOptions& options, const terminal::Session& session);

}  // namespace cli
