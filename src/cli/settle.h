#pragma once

#include <string>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct SettleOptions {
  std::string deviation;
  std::string decision;
  std::string why;
  std::string second_person;
  std::string done;
};

void declare_settle(CLI::App& app, Pending& pending);
[[nodiscard]] int run_settle(const SettleOptions& options, const terminal::Session& session);

}  // namespace cli
