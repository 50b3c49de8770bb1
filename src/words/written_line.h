#pragma once

#include <string>

#include "record/entry.h"

namespace words {

// A line that a command has just written, and what it says.
struct WrittenLine {
  record::Stamp stamp;
  std::string says;
};

}  // namespace words
