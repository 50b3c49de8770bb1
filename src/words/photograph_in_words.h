#pragma once

#include <string>

#include "record/photograph.h"

namespace words {

// "JPEG, 2000 by 1500, 812 KiB, SHA-256 1f3a...".
[[nodiscard]] std::string picture_in_words(const record::Photograph& photograph);

}  // namespace words
