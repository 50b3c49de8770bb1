#pragma once

#include "act/joint_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_joint(CLI::App& command, Pending& pending);
[[nodiscard]] int run_joint(const act::JointWords& words, const terminal::Session& session);

}  // namespace cli
