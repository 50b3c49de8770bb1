#pragma once

#include <string>

#include "record/verification.h"
#include "words/text.h"

namespace screen {

// Whether anything in a logbook was changed behind the program, first in one line; what does not
// fit, what that means and what to do. `against` is the hash that was to be found, in lower case,
// or nothing.
[[nodiscard]] std::string verification_text(const record::Verification& found,
                                            const std::string& against, const words::Page& page);
[[nodiscard]] std::string verification_json(const record::Verification& found,
                                            const std::string& against);

}  // namespace screen
