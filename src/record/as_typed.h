#pragma once

#include <cmath>
#include <optional>
#include <string>

#include "quantity/length_text.h"

namespace record {

// What a person typed, kept to the letter, wherever it is shown again; the program's own way of
// writing the value where an entry of an earlier version has lost it.
template <class Value>
[[nodiscard]] std::string as_typed(const std::string& typed, const std::optional<Value>& value) {
  if (!typed.empty() || !value) return typed;
  return write_exact(*value);
}

// The same for a length, to a millionth of a millimetre: what was typed in inches was kept in mm by
// an earlier version, with what the conversion left at the sixteenth digit.
[[nodiscard]] inline std::string as_typed(const std::string& typed,
                                          const std::optional<quantity::Length>& value) {
  if (!typed.empty() || !value) return typed;
  constexpr double kPerMillimetre = 1e6;
  return write_exact(quantity::Length::millimetres(
      std::round(value->in_millimetres() * kPerMillimetre) / kPerMillimetre));
}

}  // namespace record
