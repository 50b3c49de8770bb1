#pragma once

#include <string>
#include <vector>

#include "audit/rule.h"

namespace audit {

// Tells the alike findings of one joint together: of what a rule finds there at one level and of
// one kind, two or more are one deviation, with all positions and the id of the joint
// ("found-undecided:J06", "break-loose:J06:seized"); one alone keeps its own ("found-low:J08/05").
// Takes what was found, so that nothing of it is held twice.
[[nodiscard]] Deviations told_together(const Case& subject, Deviations each);

// Of a deviation that tells several positions together those alone, with an id that names them
// ("found-low:J06/2,4"). Each has to be one of its parts.
[[nodiscard]] Deviation narrowed(const Deviation& together, const std::vector<int>& positions);

// "1-3: the hole was empty; 7: ...": the sentences of the parts, each once with its positions.
[[nodiscard]] std::string each_in_turn(const Case& subject, const Deviation& together);

}  // namespace audit
