#pragma once

#include <string>
#include <vector>

#include "cli/adapter_options.h"
#include "cli/page_file.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct SequenceOptions {
  std::vector<std::string> joints;
  act::AdapterWords adapter;
  bool html = false;
  PageOptions page;
  bool status = false;
  bool whole = false;
  bool explain = false;
};

void declare_sequence(CLI::App& command, Pending& pending);
[[nodiscard]] int run_sequence(const SequenceOptions& options, const terminal::Session& session);

}  // namespace cli
