#include "act/adapter_words.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "fastener/adapter.h"
#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"

namespace act {
namespace {

constexpr std::string_view kExtension = "extension ";
constexpr std::string_view kAt = " at ";
constexpr std::string_view kOnWrench = " on a wrench of ";

}  // namespace

std::optional<plan::ThroughAdapter> adapter_from(const AdapterWords& words) {
  if (words.extension.empty() && words.wrench_length.empty() && words.angle.empty()) {
    return std::nullopt;
  }
  if (words.extension.empty() || words.wrench_length.empty()) {
    throw failure::UsageError(
        "an extension needs --extension LENGTH and --wrench-length LENGTH, both from the square "
        "drive");
  }
  const fastener::Adapter adapter{quantity::read_length(words.wrench_length),
                                  quantity::read_length(words.extension),
                                  read_adapter_angle(words.angle)};
  const auto angle = quantity::trimmed(words.angle);
  return plan::ThroughAdapter{
      fastener::torque_ratio(adapter),
      fmt::format("{}{}{}{}{}{}", kExtension, quantity::trimmed(words.extension), kAt,
                  angle.empty() ? "0°" : angle, kOnWrench, quantity::trimmed(words.wrench_length))};
}

std::optional<AdapterWords> adapter_words_in(std::string_view text) {
  const auto at = text.find(kAt);
  const auto on_wrench = text.find(kOnWrench);
  if (!text.starts_with(kExtension) || at == std::string_view::npos ||
      on_wrench == std::string_view::npos || on_wrench < at) {
    return std::nullopt;
  }
  const auto between = [&](std::size_t from, std::size_t to) {
    return std::string(text.substr(from, to - from));
  };
  return AdapterWords{between(kExtension.size(), at),
                      between(on_wrench + kOnWrench.size(), text.size()),
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

}  // namespace act
