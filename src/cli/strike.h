#pragma once

#include <cstdint>
#include <string>

namespace CLI {
class App;
}

namespace cli {

class Session;
struct Pending;

struct StrikeOptions {
  std::int64_t line = 0;
  std::string why;
};

void declare_strike(CLI::App& app, Pending& pending);
[[nodiscard]] int run_strike(const StrikeOptions& options, const Session& session);

}  // namespace cli
