#pragma once

#include <string>
#include <string_view>

#include "logbook/draft_file.h"

namespace logbook {

class Waiting;

// The logbook as it is, copied beside itself before all of it is changed, with the permissions that
// it has. It has no name before publish(), and is gone without one.
class KeptCopy {
 public:
  // As another connection sees the file (its real one, from the root of the disk) that writes
  // nothing: what this program is about to write is not in it. LogbookError where no file can be
  // made beside it, else what the library throws.
  KeptCopy(const std::string& file, Waiting& waiting);

  // Gives it the file's own name with this behind it ("schema-7": gb1.bolts.schema-7), or where
  // that is taken with a number as well ("gb1.bolts.schema-7-2"); tells it. Nothing is replaced.
  std::string publish(std::string_view tail) const;

 private:
  std::string file_;
  unsigned mode_;
  DraftFile draft_;
};

}  // namespace logbook
