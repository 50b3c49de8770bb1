#pragma once

#include <algorithm>
#include <nlohmann/json.hpp>
#include <vector>

#include "screen/photograph_answer.h"

namespace phone {

// As photo --json has them, the newest first.
inline nlohmann::ordered_json newest_first(
    std::vector<const screen::ShownPhotograph*> photographs) {
  std::ranges::reverse(photographs);
  return screen::photograph_rows_json(photographs);
}

}  // namespace phone
