#pragma once

#include <string>
#include <vector>

#include "record/entry.h"
#include "report/text.h"

namespace report {

// A line that a command has just written, and what it says.
struct WrittenLine {
  record::Stamp stamp;
  std::string says;
};

// "line 12: J06/1-14 out, broke normal", one after the other.
[[nodiscard]] std::string written_text(const std::vector<WrittenLine>& lines, const Page& page);

// {"lines":[{"line","id","says"}]}
[[nodiscard]] std::string written_json(const std::vector<WrittenLine>& lines);

}  // namespace report
