#pragma once

#include "act/look_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_recheck(CLI::App& command, Pending& pending);
[[nodiscard]] int run_recheck(const act::LookWords& words, bool whole,
                              const terminal::Session& session);

}  // namespace cli
