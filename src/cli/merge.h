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

struct MergeOptions {
  std::string copy;
  bool check = false;
};

// `boltwitness merge OTHER.bolts [--check]`
void declare_merge(CLI::App& command, Pending& pending);
[[nodiscard]] int run_merge(const MergeOptions& options, const terminal::Session& session);

}  // namespace cli
