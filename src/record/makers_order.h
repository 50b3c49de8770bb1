#pragma once

#include <string_view>
#include <vector>

namespace record {

// Reads the order a maker prints for the positions of a joint, "1,3,2,4" or "1 3 2 4", and checks
// that it names each of 1..count once. InputError otherwise, naming what is missing, what stands
// twice or what the joint does not have. Dashes are refused, since "1-8" is a range elsewhere.
[[nodiscard]] std::vector<int> read_makers_order(std::string_view text, int count);

}  // namespace record
