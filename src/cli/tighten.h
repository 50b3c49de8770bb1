#pragma once

#include <string>

#include "cli/adapter_options.h"
#include "cli/correction.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;
struct TightenOptions {
  std::string address;
  std::string pass;
  std::string wrench;
  std::string set;
  std::string turned;
  std::string skip;
  bool check = false;
  AdapterOptions adapter;
  CorrectionOptions correction;
};

void declare_tighten(CLI::App& app, Pending& pending);
int run_tighten(const TightenOptions& options, const terminal::Session& session);

}  // namespace cli
