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

struct FluidOptions {
  std::string fluid;
  std::string drained;
  std::string filled;
  std::string note;
  CorrectionOptions correction;
};

void declare_fluid(CLI::App& app, Pending& pending);
[[nodiscard]] int run_fluid(const FluidOptions& options, const terminal::Session& session);

}  // namespace cli
