#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "fastener/adapter.h"

namespace record {

// What is told of a crowfoot or extension.
struct AdapterTold {
  std::optional<fastener::Adapter> measures = std::nullopt;
  std::string extension_typed = {};  // as entered; the three are empty where there is none
  std::string wrench_length_typed = {};
  std::string angle_typed = {};  // empty for straight on as well
  // Of a line that an earlier version wrote, where its words do not hold measures that come to its
  // ratio; empty for every other.
  std::string words = {};
};

// A crowfoot or extension that a wrench's settings go through, or none.
struct ThroughAdapter {
  double torque_ratio = 1.0;  // torque on the fastener over setting; 1 with none
  // Nothing where nothing is. Few lines have an adapter, and the others leave no room for it.
  std::shared_ptr<const AdapterTold> told = nullptr;
};

// What is told of it; all empty where nothing is.
[[nodiscard]] const AdapterTold& told_of(const ThroughAdapter& adapter);

[[nodiscard]] inline bool is_used(const ThroughAdapter& adapter) {
  const auto& told = told_of(adapter);
  return told.measures.has_value() || !told.words.empty();
}

// An adapter of these measures as typed: two lengths with their unit, and an angle ("90", "-45°",
// "1/4 turn"; nothing is straight on). InputError where one cannot be read, or for an adapter that
// cannot be (fastener/adapter.h).
[[nodiscard]] ThroughAdapter read_adapter(std::string_view extension,
                                          std::string_view wrench_length, std::string_view angle);

// Reads "90", "90°", "-45", "1/4 turn"; a bare number is degrees, and nothing is 0°.
[[nodiscard]] quantity::Angle read_adapter_angle(std::string_view text);

// The adapter that the words of an earlier version meant, such as "extension 50 mm at 90° on a
// wrench of 16 in"; nothing for other words.
[[nodiscard]] std::optional<ThroughAdapter> adapter_in_words(std::string_view words);

}  // namespace record
