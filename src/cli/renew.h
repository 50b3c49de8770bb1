#pragma once

#include <string>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct RenewOptions {
  std::string address;
  bool arrived = false;
  CorrectionOptions correction;
};

void declare_renew(CLI::App& app, Pending& pending);
[[nodiscard]] int run_renew(const RenewOptions& options, const terminal::Session& session);

}  // namespace cli
