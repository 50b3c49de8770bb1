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
struct StripeOptions {
  std::string address;
  bool wiped = false;
  bool not_wiped = false;
  std::string counter;
  CorrectionOptions correction;
};

void declare_stripe(CLI::App& app, Pending& pending);
int run_stripe(const StripeOptions& options, const terminal::Session& session);

}  // namespace cli
