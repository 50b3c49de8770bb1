#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct HistoryOptions {
  std::string address;
};

void declare_history(CLI::App& app, Pending& pending);
[[nodiscard]] int run_history(const HistoryOptions& options, const Session& session);

}  // namespace cli
