#pragma once

#include <string>
#include <string_view>

#include "terminal/session.h"

namespace dialogue {

// For a prompt at which every key answers at once, since no line is typed there.
[[nodiscard]] std::string every_key();

// What was pressed, in lower case; '\n' for Enter alone. A whole word is no key: '\0'.
[[nodiscard]] char key_of(const std::string& typed);

// "x is no key here; d v k u q ? are; nothing was recorded".
void remark_on_key(const terminal::Session& session, const std::string& typed,
                   std::string_view keys);

}  // namespace dialogue
