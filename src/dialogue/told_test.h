#pragma once

#include "act/finding_entry.h"
#include "terminal/session.h"

namespace dialogue {

// Tells the line of a pull or a finding, what is remarkable about it and, in text, what the finding
// comes to.
void tell(const act::TestDone& test, const terminal::Session& session);

}  // namespace dialogue
