#pragma once

#include "act/removal_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_out(CLI::App& command, Pending& pending);
[[nodiscard]] int run_out(const act::RemovalWords& words, const terminal::Session& session);

}  // namespace cli
