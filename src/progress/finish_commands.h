#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/joint.h"

namespace progress {

// The counter by which a look at the joint falls due; nothing where none does.
[[nodiscard]] std::optional<record::Counter> counter_of(const record::Joint& joint);

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

// Whether a look at the joint falls due by a counter and this is no reading of it.
[[nodiscard]] bool lacks_reading(const record::Joint& joint,
                                 const std::optional<record::RunningAmount>& noted);

// What adds the reading to a line that lacks it: "stripe J06/1-4 --replace 41 --why "counter read"
// --counter "READING running h"". The verb is stripe or recheck, the positions are all of the line.
[[nodiscard]] std::string command_to_add_reading(const record::Joint& joint, std::string_view verb,
                                                 const std::vector<int>& positions,
                                                 std::int64_t line);

// What is said when such a line is written.
[[nodiscard]] std::string reading_missing(const record::Joint& joint, std::string_view verb,
                                          const std::vector<int>& positions, std::int64_t line);

}  // namespace progress
