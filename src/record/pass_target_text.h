#pragma once

#include <string>
#include <string_view>

#include "record/tightening.h"

namespace record {

// Reads "snug", "renew", "loosen", "loosen 90°", "torque 80 N·m", "check 80 N·m", "angle 60°":
// what a pass asks for. InputError otherwise, and where a torque or an angle stands with a word
// that has none.
[[nodiscard]] PassTarget read_pass_target(std::string_view text);

// The canonical text; read_pass_target gives the same value back.
[[nodiscard]] std::string write_exact(const PassTarget& target);

}  // namespace record
