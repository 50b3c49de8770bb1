#pragma once

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct AuditOptions {
  bool all = false;
  bool why = false;
  bool whole = false;
};

void declare_audit(CLI::App& command, Pending& pending);
[[nodiscard]] int run_audit(const AuditOptions& options, const terminal::Session& session);

}  // namespace cli
