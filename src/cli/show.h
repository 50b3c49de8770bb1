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

struct ShowOptions {
  std::string address;
  bool whole = false;
};

void declare_show(CLI::App& command, Pending& pending);
[[nodiscard]] int run_show(const ShowOptions& options, const terminal::Session& session);

}  // namespace cli
