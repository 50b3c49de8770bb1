#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace terminal {
class Session;
}

namespace cli {

// A word that may be typed, and what it means.
struct MayBeTyped {
  std::string word;
  std::string means = {};
};

// What an argument takes, told by the option that is declared and by what stands for its value.
struct Argument {
  std::string_view command;
  std::string_view option;  // "--wrench", or the name of a positional one
  std::string_view value;   // "NAME"
};

// The words that this argument takes and that begin as `begun`: joint codes and positions (of `out`
// those that are not out yet, of `found` those not tested yet), wrenches, deviations that are not
// settled, fluids, items, hold points, pass rules, tables, units, and every other word of a closed
// list. What the logbook is to tell is left out where there is none, where another program holds
// it, and where it is so large that it would take more than a moment.
[[nodiscard]] std::vector<MayBeTyped> words_for(const Argument& argument, std::string_view begun,
                                                const terminal::Session& session);

}  // namespace cli
