#pragma once

#include <cstddef>
#include <string>

#include "finding/found_torque.h"
#include "record/specification.h"

namespace screen {

// Found against tolerance by shape alone, in `width` columns: "....|---[-x-]--|....". The bars are
// the limits, the brackets hold the found torque with its uncertainty, x is the best estimate. A
// finding of one bound has one bracket and an arrow, "<--]" or "[-->"; what lies beyond the strip
// is an arrow at its end. The strip reaches half the tolerance beyond either limit; half of the
// limit itself where there is only one.
[[nodiscard]] std::string tolerance_strip(const finding::FoundTorque& found,
                                          const record::ToleranceWindow& window, std::size_t width);

}  // namespace screen
