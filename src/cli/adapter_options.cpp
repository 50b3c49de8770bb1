#include "cli/adapter_options.h"

#include <CLI/CLI.hpp>

namespace cli {
namespace {

constexpr const char* kAdapterGroup = "Through a crowfoot or extension";

}  // namespace

void declare_adapter_options(CLI::App& command, act::AdapterWords& words) {
  command
      .add_option("--extension", words.extension,
                  "Crowfoot or extension: from the square drive to the middle of the fastener")
      ->option_text("LENGTH")
      ->group(kAdapterGroup);
  command
      .add_option("--wrench-length", words.wrench_length,
                  "Wrench: from the square drive to the middle of the hand grip")
      ->option_text("LENGTH")
      ->group(kAdapterGroup);
  command
      .add_option("--adapter-angle", words.angle,
                  "Between extension and wrench: 0 straight on (the default), 90 square to it, 180 "
                  "folded back")
      ->option_text("DEGREES")
      ->group(kAdapterGroup);
}

}  // namespace cli
