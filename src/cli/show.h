#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct ShowOptions {
  std::string address;
};

void declare_show(CLI::App& app, Pending& pending);
[[nodiscard]] int run_show(const ShowOptions& options, const Session& session);

}  // namespace cli
