#pragma once

#include <string>

#include "record/content.h"

namespace words {

// What a line of the logbook says, in one sentence: when it has been written, and in its history.
[[nodiscard]] std::string line_text(const record::Content& content);

// What was typed for it that its sentence does not hold, such as a serial number; may be empty.
[[nodiscard]] std::string typed_besides(const record::Content& content);

}  // namespace words
