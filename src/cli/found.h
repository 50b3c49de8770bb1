#pragma once

#include <string>
#include <vector>

#include "cli/adapter_options.h"
#include "cli/correction.h"

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct FoundOptions {
  std::string address;
  std::vector<std::string> readings;
  std::string wrench;
  std::string radius;
  std::string restart;
  std::string neighbours;
  std::string prevailing;
  AdapterOptions adapter;
  bool next = false;
  CorrectionOptions correction;
};

void declare_found(CLI::App& app, Pending& pending);
[[nodiscard]] int run_found(const FoundOptions& options, const Session& session);

}  // namespace cli
