#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "plan/wrench_choice.h"
#include "quantity/angle.h"

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

// What the adapter does to a torque, and in words with its measures as typed. Nothing where no
// extension is named. UsageError where one of the lengths is missing; InputError for an adapter
// that cannot be.
[[nodiscard]] std::optional<plan::ThroughAdapter> adapter_from(const AdapterOptions& options);

// The options that an adapter's words were made from; nothing where they were not made so.
[[nodiscard]] std::optional<AdapterOptions> options_in_words(std::string_view words);

// Reads "90", "90°", "-45", "1/4 turn"; a bare number is degrees, and nothing is 0°.
[[nodiscard]] quantity::Angle read_adapter_angle(const std::string& text);

}  // namespace cli
