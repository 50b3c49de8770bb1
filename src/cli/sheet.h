#pragma once

#include <string>
#include <vector>

#include "cli/page_file.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct SheetOptions {
  std::vector<std::string> joints;
  PageOptions page;
};

void declare_sheet(CLI::App& command, Pending& pending);
[[nodiscard]] int run_sheet(const SheetOptions& options, const terminal::Session& session);

}  // namespace cli
