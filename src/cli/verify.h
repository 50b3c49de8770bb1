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
};

// `boltwitness verify [--against HASH]`
void declare_verify(CLI::App& app, Pending& pending);
[[nodiscard]] int run_verify(const VerifyOptions& options, const terminal::Session& session);

}  // namespace cli
