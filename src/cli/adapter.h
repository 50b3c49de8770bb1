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

struct AdapterCommandOptions {
  std::string torque;
  std::string length;
  std::string extension;
  std::string angle;
};

void declare_adapter(CLI::App& command, Pending& pending);
[[nodiscard]] int run_adapter(const AdapterCommandOptions& options,
                              const terminal::Session& session);

}  // namespace cli
