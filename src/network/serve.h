#pragma once

#include "cli/serve.h"

namespace terminal {
class Session;
}

namespace network {

// Answers phones until it is ended; or lists or forgets those that are paired. The exit code.
[[nodiscard]] int serve(const cli::ServeCommandOptions& options, const terminal::Session& session);

}  // namespace network
