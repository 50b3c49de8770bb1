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

void declare_stripe(CLI::App& command, Pending& pending);
[[nodiscard]] int run_stripe(const act::StripeWords& stated, const terminal::Session& session);

}  // namespace cli
