#include "cli/adapter_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "failure/failure.h"
#include "fastener/adapter.h"
#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"

namespace cli {

namespace {

constexpr std::string_view kExtension = "extension ";
constexpr std::string_view kAt = " at ";
constexpr std::string_view kOnWrench = " on a wrench of ";

}  // namespace

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
  const fastener::Adapter adapter{quantity::read_length(options.wrench_length),
                                  quantity::read_length(options.extension),
                                  read_adapter_angle(options.angle)};
  const auto angle = quantity::trimmed(options.angle);
  return plan::ThroughAdapter{
      fastener::torque_ratio(adapter),
      fmt::format("{}{}{}{}{}{}", kExtension, quantity::trimmed(options.extension), kAt,
                  angle.empty() ? "0°" : angle, kOnWrench,
                  quantity::trimmed(options.wrench_length))};
}

std::optional<AdapterOptions> options_in_words(std::string_view words) {
  const auto at = words.find(kAt);
  const auto on_wrench = words.find(kOnWrench);
  if (!words.starts_with(kExtension) || at == std::string_view::npos ||
      on_wrench == std::string_view::npos || on_wrench < at) {
    return std::nullopt;
  }
  const auto between = [&](std::size_t from, std::size_t to) {
    return std::string(words.substr(from, to - from));
  };
  return AdapterOptions{between(kExtension.size(), at),
                        between(on_wrench + kOnWrench.size(), words.size()),
                        between(at + kAt.size(), on_wrench)};
}

quantity::Angle read_adapter_angle(const std::string& text) {
  std::string_view rest = quantity::trimmed(text);
  if (rest.empty()) return quantity::Angle::degrees(0.0);
  const double sign = rest.starts_with('-') ? -1.0 : 1.0;
  if (rest.starts_with('-') || rest.starts_with('+')) rest.remove_prefix(1);
  if (const auto leading = quantity::read_leading_angle(rest, text)) {
    if (leading->rest.empty()) return leading->angle * sign;
  }
  return quantity::Angle::degrees(quantity::read_number(rest) * sign);
}

}  // namespace cli
