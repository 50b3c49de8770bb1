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

struct ImportOptions {
  std::string file;
  std::string as;      // a table; empty where the header tells
  bool check = false;  // write nothing
};

void declare_import(CLI::App& command, Pending& pending);
[[nodiscard]] int run_import(const ImportOptions& options, const terminal::Session& session);

}  // namespace cli
