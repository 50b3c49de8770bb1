#pragma once

#include "act/stripe_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct StripeOptions {
  act::StripeWords words;
  bool not_wiped = false;
};

void declare_stripe(CLI::App& app, Pending& pending);
[[nodiscard]] int run_stripe(const StripeOptions& options, const terminal::Session& session);

}  // namespace cli
