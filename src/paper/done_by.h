#pragma once

#include <string>
#include <vector>

#include "record/entry.h"

namespace paper {

// A position and the line that says what was done to it.
struct DoneAt {
  int position = 0;
  const record::Stamp* stamp = nullptr;
};

// "1-8 by KB, 2025-05-21 08:12 to 08:30", for each person in the order in which they come up.
[[nodiscard]] std::vector<std::string> done_by(const std::vector<DoneAt>& done);

}  // namespace paper
