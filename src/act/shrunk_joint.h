#pragma once

#include <string>

#include "record/job.h"

namespace act {

// What is lost from view where a joint is entered again with fewer positions: which ones are no
// more, and the lines that stay in the history but say something of them alone or of them as well.
struct ShrunkJoint {
  std::string text;            // empty where no position is lost
  bool leaves_strays = false;  // some line stands on a position that is no more
};

[[nodiscard]] ShrunkJoint shrunk(const record::Joint& before, const record::Joint& after,
                                 const record::Job& job);

}  // namespace act
