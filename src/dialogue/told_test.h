#pragma once

#include "act/finding_entry.h"
#include "terminal/session.h"

namespace dialogue {

// Tells what a finding comes to, in text, then the line of the pull or finding and what is
// remarkable about it; with `parts` also what its uncertainty is made of and how it was judged.
void tell(const act::TestDone& test, const terminal::Session& session, bool parts = false);

}  // namespace dialogue
