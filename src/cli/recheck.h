#pragma once

#include <string>
#include <vector>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct RecheckOptions {
  std::string address;
  std::vector<std::string> state;  // "aligned", or "turned 15°" in one word or two
  std::string counter;
  CorrectionOptions correction;
};

void declare_recheck(CLI::App& app, Pending& pending);
[[nodiscard]] int run_recheck(const RecheckOptions& options, const Session& session);

}  // namespace cli
