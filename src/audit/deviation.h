#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/disposition.h"
#include "record/entry.h"

namespace audit {

// How much a deviation weighs.
enum class Level {
  Hold,   // must be settled before reassembly
  Check,  // look at it
  Note,   // good to know
};

// "hold", "check", "note".
[[nodiscard]] std::string_view word_of(Level level);

// How much the logbook says for a cause. None of them is a proof.
enum class Weight {
  Likely,    // a fact of this very fastener or joint speaks for it
  Possible,  // a fact fits it, and fits other causes as well
};

// "likely", "possible".
[[nodiscard]] std::string_view word_of(Weight weight);

// Why it may be so, and the fact in the logbook on which that rests.
struct Cause {
  Weight weight = Weight::Possible;
  std::string says;
  std::string fact;
};

// Anything the audit flags. `id` stays the same from one audit to the next while the matter is the
// same, so that a decision can be tied to it; a
// person can type it.
struct Deviation {
  std::string id;
  Level level = Level::Check;
  std::string rule;             // the rule's name, in plain words
  std::string joint;            // empty where it is about no joint
  std::optional<int> position;  // nothing where it is about the whole joint
  std::string says;             // what was found, and against what
  std::string what_to_do;
  std::vector<Cause> causes = {};  // the likeliest first; empty where nothing speaks for one
  std::string evidence = {};       // fingerprint of what it rests on (evidence.h)
  // The decision that holds for it; nothing while it is open.
  const record::Entry<record::Disposition>* settled = nullptr;
  // Where it is open again: the last decision, made on other evidence; and the lines that it rests
  // on now and that were not there then.
  const record::Entry<record::Disposition>* settled_before = nullptr;
  std::vector<std::int64_t> lines_since = {};

  // A hold that nothing settles.
  [[nodiscard]] bool holds_up() const { return level == Level::Hold && settled == nullptr; }
};

}  // namespace audit
