#pragma once

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

void declare_audit(CLI::App& app, Pending& pending);
[[nodiscard]] int run_audit(const Session& session);

}  // namespace cli
