#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace quantity {

// Bytes as letters and digits (RFC 4648 section 4, base64 with padding), as JSON and pages hold
// them.
[[nodiscard]] std::string write_base64(std::string_view bytes);

// And back; nothing for what write_base64 does not write.
[[nodiscard]] std::optional<std::string> read_base64(std::string_view text);

}  // namespace quantity
