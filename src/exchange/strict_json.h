#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

namespace exchange {

// Reads the whole text as JSON (RFC 8259). InputError, with line and column, where it breaks off or
// goes wrong; for a number beyond what can be kept; and where a name stands twice in one object,
// which is allowed there but leaves open which of the two counts.
[[nodiscard]] nlohmann::ordered_json read_strict_json(std::string_view text);

}  // namespace exchange
