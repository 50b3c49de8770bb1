#pragma once

#include <string>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct ItemOptions {
  std::string code;
  std::string what;
  std::string count;
  std::string before;
  std::string back;
  CorrectionOptions correction;
};

void declare_item(CLI::App& app, Pending& pending);
[[nodiscard]] int run_item(const ItemOptions& options, const terminal::Session& session);

}  // namespace cli
