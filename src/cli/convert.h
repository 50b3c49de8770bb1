#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct ConvertOptions {
  std::string torque;
  std::string to;
};

void declare_convert(CLI::App& app, Pending& pending);
[[nodiscard]] int run_convert(const ConvertOptions& options, const Session& session);

}  // namespace cli
