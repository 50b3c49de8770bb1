#pragma once

#include "act/arrival_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct RenewOptions {
  act::ArrivalWords words;
  bool arrived = false;
  bool whole = false;
};

void declare_renew(CLI::App& command, Pending& pending);
[[nodiscard]] int run_renew(const RenewOptions& options, const terminal::Session& session);

}  // namespace cli
