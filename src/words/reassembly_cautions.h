#pragma once

#include <string_view>

namespace words {

// What to mind before anything is closed up; stands above every order of reassembly.
[[nodiscard]] std::string_view sequence_cautions();

}  // namespace words
