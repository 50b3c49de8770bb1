#pragma once

#include "act/finding_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct FoundOptions {
  act::FindingWords words;
  bool next = false;
  bool parts = false;
};

void declare_found(CLI::App& command, Pending& pending);
[[nodiscard]] int run_found(const FoundOptions& options, const terminal::Session& session);

}  // namespace cli
