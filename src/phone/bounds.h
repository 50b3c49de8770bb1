#pragma once

#include <chrono>
#include <cstddef>

#include "record/photograph.h"

namespace phone {

// What one request may take: an end of its own that moves with what has come in, so that who sends
// a byte now and then holds nothing up, and a most of bytes, so that nobody fills the memory.
struct Bounds {
  std::chrono::milliseconds begin = std::chrono::seconds(5);  // until it has to be there
  std::size_t bytes_in_second = 16'384;                       // more time for what is long
  std::size_t most_bytes = 65'536;                            // of head and body together
  // The same of a photograph from a paired phone, and how many of those are read, or answered with,
  // at once.
  std::size_t most_photograph_bytes = record::kMostPhotographBytes + 65'536;
  std::ptrdiff_t photographs_at_once = 4;
};

}  // namespace phone
