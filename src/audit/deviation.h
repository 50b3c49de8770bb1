#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace audit {

// How much a deviation weighs.
enum class Level {
  Hold,   // must be settled before reassembly
  Check,  // look at it
  Note,   // good to know
};

// "hold", "check", "note".
[[nodiscard]] std::string_view word_of(Level level);

// Anything the audit flags. `id` stays the same from one audit to the next while the matter is the
// same, so that a decision can be tied to it.
struct Deviation {
  std::string id;
  Level level = Level::Check;
  std::string rule;             // the rule's name, in plain words
  std::string joint;            // empty where it is about no joint
  std::optional<int> position;  // nothing where it is about the whole joint
  std::string says;             // what was found, and against what
  std::string what_to_do;
};

}  // namespace audit
