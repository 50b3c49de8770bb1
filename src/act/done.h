#pragma once

#include <string>
#include <vector>

#include "words/written_line.h"

namespace act {

// What a deed has done: the lines it wrote, durable by now, and what is remarkable about them. It
// is for the door that called the deed to show.
struct Done {
  std::vector<words::WrittenLine> lines;
  std::vector<std::string> remarks;
};

}  // namespace act
