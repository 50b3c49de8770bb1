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

struct ConvertOptions {
  std::vector<std::string> torque;  // the words of one torque, also without quotes
  std::string to;
};

void declare_convert(CLI::App& command, Pending& pending);
[[nodiscard]] int run_convert(const ConvertOptions& options, const terminal::Session& session);

}  // namespace cli
