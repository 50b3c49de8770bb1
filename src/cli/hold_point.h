#pragma once

#include "act/hold_point_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_hold_point(CLI::App& command, Pending& pending);
[[nodiscard]] int run_hold_point(const act::HoldPointWords& words,
                                 const terminal::Session& session);

}  // namespace cli
