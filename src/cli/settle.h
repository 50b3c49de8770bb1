#pragma once

#include "act/decision_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_settle(CLI::App& command, Pending& pending);
[[nodiscard]] int run_settle(const act::DecisionWords& words, const terminal::Session& session);

}  // namespace cli
