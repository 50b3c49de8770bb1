#pragma once

#include <string>
#include <string_view>

namespace record {

// "j2" of "J02": the code in lower case, its numbers without the noughts before them.
[[nodiscard]] std::string without_noughts(std::string_view code);

}  // namespace record
