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

struct OutOptions {
  std::string address;
  std::string broke;
  bool no_mark = false;
  std::string damaged_thread;
  std::string bag;
  std::string note;
  std::string length;
  std::string size;
  std::string grade;
  CorrectionOptions correction;
};

void declare_out(CLI::App& app, Pending& pending);
[[nodiscard]] int run_out(const OutOptions& options, const terminal::Session& session);

}  // namespace cli
