#pragma once

#include <string>

#include "record/content.h"

namespace words {

// What a line of the logbook says, in one sentence: when it has been written, and in its history.
[[nodiscard]] std::string line_text(const record::Content& content);

}  // namespace words
