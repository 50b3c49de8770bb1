#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "plan/wrench_choice.h"
#include "quantity/angle.h"

namespace act {

// A crowfoot or extension that wrench settings go through, as typed.
struct AdapterWords {
  std::string extension;
  std::string wrench_length;
  std::string angle;
};

// What the adapter does to a torque, and in words with its measures as typed. Nothing where no
// extension is named. UsageError where one of the lengths is missing; InputError for an adapter
// that cannot be.
[[nodiscard]] std::optional<plan::ThroughAdapter> adapter_from(const AdapterWords& words);

// What was typed, from the text that adapter_from makes of it; nothing where it was not made so.
[[nodiscard]] std::optional<AdapterWords> adapter_words_in(std::string_view text);

// Reads "90", "90°", "-45", "1/4 turn"; a bare number is degrees, and nothing is 0°.
[[nodiscard]] quantity::Angle read_adapter_angle(const std::string& text);

}  // namespace act
