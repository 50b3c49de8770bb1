#pragma once

#include <string>
#include <vector>

#include "record/entry.h"
#include "words/text.h"
#include "words/written_line.h"

namespace screen {

// "line 12: J06/1-14 out, broke normal", one after the other.
[[nodiscard]] std::string written_text(const std::vector<words::WrittenLine>& lines,
                                       const words::Page& page);

// {"lines":[{"line","id","says"}]}
[[nodiscard]] std::string written_json(const std::vector<words::WrittenLine>& lines);

}  // namespace screen
