#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "record/verification.h"
#include "words/text.h"

namespace screen {

// What was asked about an older state of the log.
struct AskedOfOlder {
  std::vector<std::string> hashes;  // that it showed, in lower case; none where nothing was asked
  std::int64_t line = 0;  // the number that one of its lines had; 0 where none was asked for

  // Whether the log holds it.
  [[nodiscard]] bool is_found(const record::Verification& found) const;
};

// Whether anything in a logbook was changed behind the program, first in one line; what does not
// fit, what that means and what to do.
[[nodiscard]] std::string verification_text(const record::Verification& found,
                                            const AskedOfOlder& asked, const words::Page& page);
[[nodiscard]] std::string verification_json(const record::Verification& found,
                                            const AskedOfOlder& asked);

}  // namespace screen
