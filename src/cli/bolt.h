#pragma once

#include <string>

#include "cli/bolt_checks.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct BoltOptions {
  std::string size;
  std::string grade;
  std::string torque;
  std::string condition;
  std::string friction;
  std::string thread_friction;
  std::string head_friction;
  std::string bearing;
  std::string prevailing;
  BoltCheckOptions checks;
};

void declare_bolt(CLI::App& command, Pending& pending);
[[nodiscard]] int run_bolt(const BoltOptions& options, const terminal::Session& session);

}  // namespace cli
