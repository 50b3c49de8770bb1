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

struct VerifyOptions {
  std::string against;
  std::string line;
};

// `boltwitness verify [--against HASH [--line N]]`
void declare_verify(CLI::App& command, Pending& pending);
[[nodiscard]] int run_verify(const VerifyOptions& options, const terminal::Session& session);

}  // namespace cli
