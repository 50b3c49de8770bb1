#include "cli/adapter_options.h"

#include <CLI/CLI.hpp>

#include "failure/failure.h"

namespace cli {

void declare_adapter_options(CLI::App& command, AdapterOptions& options) {
  command
      .add_option("--extension", options.extension,
                  "Crowfoot or extension: from the square drive to the middle of the fastener")
      ->option_text("LENGTH");
  command
      .add_option("--wrench-length", options.wrench_length,
                  "Wrench: from the square drive to the middle of the hand grip")
      ->option_text("LENGTH");
  command
      .add_option("--adapter-angle", options.angle,
                  "Between extension and wrench: 0 straight on (the default), 90 square to it, 180 "
                  "folded back")
      ->option_text("DEGREES");
}

std::optional<plan::ThroughAdapter> adapter_from(const AdapterOptions& options) {
  if (options.extension.empty() && options.wrench_length.empty() && options.angle.empty()) {
    return std::nullopt;
  }
  if (options.extension.empty() || options.wrench_length.empty()) {
    throw failure::UsageError(
        "an extension needs --extension LENGTH and --wrench-length LENGTH, both from the square "
        "drive");
  }
  return record::read_adapter(options.extension, options.wrench_length, options.angle);
}

}  // namespace cli
