#pragma once

#include "act/fluid_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_fluid(CLI::App& command, Pending& pending);
[[nodiscard]] int run_fluid(const act::FluidWords& words, const terminal::Session& session);

}  // namespace cli
