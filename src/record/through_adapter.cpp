#include "record/through_adapter.h"

#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"

namespace record {

ThroughAdapter read_adapter(std::string_view extension, std::string_view wrench_length,
                            std::string_view angle) {
  const fastener::Adapter measures{quantity::read_length(wrench_length),
                                   quantity::read_length(extension), read_adapter_angle(angle)};
  return {fastener::torque_ratio(measures), std::make_shared<const AdapterTold>(AdapterTold{
                                                measures,
                                                std::string(quantity::trimmed(extension)),
                                                std::string(quantity::trimmed(wrench_length)),
                                                std::string(quantity::trimmed(angle)),
                                                {}})};
}

const AdapterTold& told_of(const ThroughAdapter& adapter) {
  static const AdapterTold kNothing;
  return adapter.told == nullptr ? kNothing : *adapter.told;
}

quantity::Angle read_adapter_angle(std::string_view text) {
  std::string_view rest = quantity::trimmed(text);
  if (rest.empty()) return quantity::Angle::degrees(0.0);
  const double sign = rest.starts_with('-') ? -1.0 : 1.0;
  if (rest.starts_with('-') || rest.starts_with('+')) rest.remove_prefix(1);
  if (const auto leading = quantity::read_leading_angle(rest, text)) {
    if (leading->rest.empty()) return leading->angle * sign;
  }
  return quantity::Angle::degrees(quantity::read_number(rest) * sign);
}

std::optional<ThroughAdapter> adapter_in_words(std::string_view words) {
  constexpr std::string_view kExtension = "extension ";
  constexpr std::string_view kAt = " at ";
  constexpr std::string_view kOnWrench = " on a wrench of ";
  const auto at = words.find(kAt);
  const auto on_wrench = words.find(kOnWrench);
  if (!words.starts_with(kExtension) || at == std::string_view::npos ||
      on_wrench == std::string_view::npos || on_wrench < at + kAt.size()) {
    return std::nullopt;
  }
  const auto between = [&](std::size_t from, std::size_t to) {
    return words.substr(from, to - from);
  };
  try {
    return read_adapter(between(kExtension.size(), at), words.substr(on_wrench + kOnWrench.size()),
                        between(at + kAt.size(), on_wrench));
  } catch (const failure::InputError&) {
    return std::nullopt;  // words of somebody's own that only look like it
  }
}

}  // namespace record
