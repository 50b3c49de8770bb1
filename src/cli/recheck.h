#pragma once

#include <string>
#include <vector>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct RecheckOptions {
  std::string address;
  std::vector<std::string> state;  // "aligned", or "turned 15°" in one word or two
  std::string counter;
  CorrectionOptions correction;
};

void declare_recheck(CLI::App& app, Pending& pending);
[[nodiscard]] int run_recheck(const RecheckOptions& options, const terminal::Session& session);

}  // namespace cli
