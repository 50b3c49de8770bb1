#pragma once

#include <string>
#include <vector>

#include "record/joint.h"

namespace progress {

// What is typed once the final stripes are drawn: "stripe J06/1-4 --wiped". Where a look at them
// falls due by the machine's counter it takes what that shows now, with READING in its place:
// "... --counter "READING running h"".
[[nodiscard]] std::string stripe_command(const record::Joint& joint,
                                         const std::vector<int>& positions);

// The same for a look that found them in line: "recheck J06/1-4 aligned".
[[nodiscard]] std::string look_command(const record::Joint& joint,
                                       const std::vector<int>& positions);

// What is to be put in the place of READING, told behind one of those commands: "; READING is ...".
// Empty where nothing is to be filled in.
[[nodiscard]] std::string reading_to_fill_in(const record::Joint& joint);

}  // namespace progress
