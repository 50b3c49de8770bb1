#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "record/job.h"

namespace finding {

// How one fastener came out, where several lines record it: copies of the logbook that were apart
// and have been merged. None of them outvotes another by having been written later.

using Outs = std::vector<const record::Entry<record::Removal>*>;

// One thing of which they do not say the same.
struct DisputedOut {
  std::string_view what;          // "broke loose", "thread"
  std::vector<std::string> said;  // by each of the lines, in their order
  bool is_grave = true;           // false where it is only about the bag
};

// In a fixed order; nothing where they agree. What a line says nothing of is as the joint has it.
[[nodiscard]] std::vector<DisputedOut> disputed_outs(const record::Joint& joint, const Outs& outs);

// "broke loose sheared (line 9, LM), normal (line 12, KB)".
[[nodiscard]] std::string in_words(const DisputedOut& disputed, const Outs& outs);

// What counts until somebody strikes one of them: the worse of each, with all notes, and what they
// do not dispute as the last one has it. The lines are in the order done; there is one at least.
[[nodiscard]] record::Removal by_the_worse(const record::Joint& joint, const Outs& outs);

// Whether they are several and some of them were written in copies that were apart; in one copy a
// second one is refused.
[[nodiscard]] bool are_of_several_copies(const record::Apart& apart, const Outs& outs);

// The line that they come to, by the worse under the stamp of the last. Nothing where they agree:
// then the last one says it all.
[[nodiscard]] std::shared_ptr<const record::Entry<record::Removal>> read_together(
    const record::Joint& joint, const Outs& outs);

}  // namespace finding
