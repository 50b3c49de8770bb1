#pragma once

#include <optional>
#include <string>

#include "plan/wrench_choice.h"

namespace CLI {
class App;
}

namespace cli {

// A crowfoot or extension that a command's wrench settings go through.
struct AdapterOptions {
  std::string extension;
  std::string wrench_length;
  std::string angle;
};

// Binds --extension, --wrench-length and --adapter-angle.
void declare_adapter_options(CLI::App& command, AdapterOptions& options);

// The adapter with its measures as typed. Nothing where no
// extension is named. UsageError where one of the lengths is missing; InputError for an adapter
// that cannot be.
[[nodiscard]] std::optional<plan::ThroughAdapter> adapter_from(const AdapterOptions& options);

}  // namespace cli
