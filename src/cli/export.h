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

struct ExportOptions {
  std::string table;  // empty for the whole logbook
  std::string to;     // a file; empty or "-" for the output
  bool decimal_comma = false;
  bool json_lines = false;
};

void declare_export(CLI::App& command, Pending& pending);
[[nodiscard]] int run_export(const ExportOptions& options, const terminal::Session& session);

}  // namespace cli
