#pragma once

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

}  // namespace record
