#pragma once

#include <span>
#include <string>
#include <string_view>

namespace logbook {

// These bytes as hexadecimal digits in lower case.
[[nodiscard]] std::string digits_of(std::span<const unsigned char> bytes);

// SHA-256 (FIPS 180-4) of these bytes, as 64 hexadecimal digits in lower case. Computed by
// libsodium.
[[nodiscard]] std::string sha256(std::string_view bytes);

}  // namespace logbook
