#pragma once

#include "act/wrench_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_wrench(CLI::App& command, Pending& pending);
[[nodiscard]] int run_wrench(const act::WrenchWords& words, const terminal::Session& session);

}  // namespace cli
