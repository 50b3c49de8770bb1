#pragma once

#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct BackupOptions {
  std::string folder;
  std::optional<int> keep;
};

// `boltwitness backup [FOLDER] [--keep N]`
void declare_backup(CLI::App& command, Pending& pending);
[[nodiscard]] int run_backup(const BackupOptions& options, const terminal::Session& session);

}  // namespace cli
