#pragma once

#include <optional>

#include "act/done.h"
#include "progress/reassembly.h"
#include "progress/unfinished_before.h"
#include "terminal/session.h"

namespace dialogue {

// Asks for one of the things that can be done to a joint only before the one that covers it is
// closed: the second person's check, then the final stripes. What was recorded; nothing where the
// person stops. Refusal where the stripes may not be drawn.
[[nodiscard]] std::optional<act::Done> finish_before_cover(const terminal::Session& session,
                                                           const progress::Reassembly& now,
                                                           const progress::Unmarked& unmarked);

}  // namespace dialogue
