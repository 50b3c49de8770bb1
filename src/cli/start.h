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

struct StartOptions {
  std::string file;
  std::string machine;
  std::string unit = "N·m";
  std::string tolerance = "10%";
  std::string method_error = "2%";
  std::string angle_window;
};

void declare_start(CLI::App& app, Pending& pending);
[[nodiscard]] int run_start(const StartOptions& options, const terminal::Session& session);

}  // namespace cli
