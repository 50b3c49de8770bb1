#pragma once

#include <string>
#include <vector>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct HoldPointOptions {
  std::string code;
  std::string what;
  std::string wait;
  std::vector<std::string> before;
  bool begin = false;
  bool pass = false;
  bool close = false;
  std::string note;
  CorrectionOptions correction;
};

void declare_hold_point(CLI::App& app, Pending& pending);
[[nodiscard]] int run_hold_point(const HoldPointOptions& options, const terminal::Session& session);

}  // namespace cli
