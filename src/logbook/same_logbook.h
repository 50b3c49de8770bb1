#pragma once

#include <cstdint>
#include <string>

#include "logbook/logbook.h"

namespace logbook {

// For who opens a logbook again and again, as a guide and a server do: whether it is still the one
// that was opened first, and holds all that was seen in it. Another file may have been moved or
// copied over it meanwhile.
class SameLogbook {
 public:
  // To be called each time it was opened. LogbookError (Unreachable) where it is another one, or an
  // older state of this one.
  void check(const Logbook& logbook);

 private:
  std::string first_id_;
  std::string last_id_;
  std::int64_t last_line_ = 0;
};

}  // namespace logbook
