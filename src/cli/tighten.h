#pragma once

#include "act/tightening_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct TightenOptions {
  std::string address;
  act::TighteningWords words;
};

void declare_tighten(CLI::App& command, Pending& pending);
[[nodiscard]] int run_tighten(const TightenOptions& options, const terminal::Session& session);

}  // namespace cli
