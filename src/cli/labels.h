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

struct LabelsOptions {
  std::vector<std::string> joints;
  bool each = false;
  std::string link;
  PageOptions page;
};

void declare_labels(CLI::App& command, Pending& pending);
[[nodiscard]] int run_labels(const LabelsOptions& options, const terminal::Session& session);

}  // namespace cli
