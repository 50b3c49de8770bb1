#pragma once

#include <string>
#include <string_view>

namespace phone {

// The text as a QR code for a terminal: light modules drawn, since most terminals are dark, two
// rows in one where the characters are there (`blocks`), else two letters a module. Empty where the
// text is too long for a code.
[[nodiscard]] std::string terminal_code(std::string_view text, bool blocks);

}  // namespace phone
