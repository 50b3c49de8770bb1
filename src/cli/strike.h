#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct StrikeOptions {
  std::string line;
  std::string why;
};

void declare_strike(CLI::App& app, Pending& pending);
[[nodiscard]] int run_strike(const StrikeOptions& options, const Session& session);

}  // namespace cli
