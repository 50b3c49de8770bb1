#pragma once

#include <string>

#include "cli/correction.h"

namespace cli {

class Session;
struct Pending;

struct WrenchOptions {
  std::string name;
  std::string range;
  std::string graduation;
  std::string kind;
  std::string accuracy;
  std::string serial;
  std::string calibrated;
  std::string valid;
  std::string found_off;
  CorrectionOptions correction;
};

void declare_wrench(CLI::App& app, Pending& pending);
[[nodiscard]] int run_wrench(const WrenchOptions& options, const Session& session);

}  // namespace cli
