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

struct BenchOptions {
  std::string address;
  std::string wrench;
  std::string restart;
};

void declare_bench(CLI::App& command, Pending& pending);
[[nodiscard]] int run_bench(const BenchOptions& options, const terminal::Session& session);

}  // namespace cli
