#pragma once

#include "act/start_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_start(CLI::App& command, Pending& pending);
[[nodiscard]] int run_start(const act::StartWords& words, const terminal::Session& session);

}  // namespace cli
