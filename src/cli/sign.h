#pragma once

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

// `boltwitness sign`
void declare_sign(CLI::App& command, Pending& pending);
[[nodiscard]] int run_sign(const terminal::Session& session);

}  // namespace cli
