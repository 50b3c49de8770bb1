#pragma once

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_status(CLI::App& command, Pending& pending);

// How far the job is, which is also what the program says where no command is named. Exit code 1
// while anything is open.
[[nodiscard]] int run_status(const terminal::Session& session, bool whole);

}  // namespace cli
