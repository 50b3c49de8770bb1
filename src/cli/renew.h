#pragma once

#include <string>

#include "cli/correction.h"

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct RenewOptions {
  std::string address;
  bool arrived = false;
  CorrectionOptions correction;
};

void declare_renew(CLI::App& app, Pending& pending);
[[nodiscard]] int run_renew(const RenewOptions& options, const Session& session);

}  // namespace cli
