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

using Decided = record::Entry<record::Disposition>;

// What a deviation is about, one by one: a single position, or the matter as a whole. Decisions are
// made and hold part by part, so that one that joins is open and the others stay settled.
struct Part {
  std::string id;                 // that it has alone, such as "found-low:J06/03"
  std::optional<int> position;    // nothing where it is about the whole joint, or about none
  std::string says;               // what was found, and against what
  std::string figures;            // what that was written from (statement.h)
  std::string old_says = {};      // as it was worded before schema step 9, where it was otherwise
  std::string evidence = {};      // fingerprint of what it rests on (evidence.h)
  std::string old_evidence = {};  // the same as it was made before schema step 9
  // What was done later is no evidence of it; nothing where every line is.
  const record::Stamp* rests_until = nullptr;
  const record::Stamp* newest = nullptr;  // of the lines that it rests on, the last by time done
  // The line that says it: what is struck or entered again where it is wrong. Else the finding that
  // it rests on, else the newest line; nothing where it rests on none.
  const record::Stamp* told_in = nullptr;
  const Decided* settled = nullptr;  // the decision that holds for it; nothing while it is open
  // Where it is open again: the last decision, made on other evidence; and the lines that it rests
  // on now and that were not there then, those that did what was decided apart.
  const Decided* settled_before = nullptr;
  std::vector<std::int64_t> lines_since = {};
  std::vector<std::int64_t> lines_done = {};
  // Of the first those that were written in a copy apart from the decision, before it or after.
  std::vector<std::int64_t> lines_apart = {};
};

// Anything the audit flags. `id` stays the same from one audit to the next while the matter is the
// same, whichever positions join or leave; a person can type it.
struct Deviation {
  std::string id;
  Level level = Level::Check;
  std::string rule;             // the rule's name, in plain words
  std::string joint;            // empty where it is about no joint
  std::optional<int> position;  // nothing where it is about the whole joint, or about several
  std::string says;             // what was found, and against what
  std::string what_to_do;
  // A check that keeps the job from being finished while it is open, though not from going on. So
  // does each that tells how a critical joint was tightened: what is done over or decided there is
  // not left for somebody to find.
  bool keeps_unfinished = false;
  std::vector<Cause> causes = {};   // the likeliest first; empty where nothing speaks for one
  std::vector<int> positions = {};  // rising; those it names, if any
  std::vector<Part> parts = {};     // at least one, by position
  // Tells what is alike from what is not among those of one rule, joint and level; part of the id
  // where several are told together.
  std::string kind = {};
  // The advice with a place for the address of all positions, where it names one.
  std::string what_to_do_at = {};
  // The decision that holds for it, the latest where its parts have several; nothing while a part
  // of it is open.
  const Decided* settled = nullptr;
  const Decided* settled_before = nullptr;  // of the first part that is open again
  std::vector<std::int64_t> lines_since = {};

  // A hold that nothing settles.
  [[nodiscard]] bool holds_up() const { return level == Level::Hold && settled == nullptr; }
  // What is to be settled before the job is finished: a hold, or a check that says so.
  [[nodiscard]] bool is_to_settle() const {
    return settled == nullptr && (level == Level::Hold || keeps_unfinished);
  }
  // About this position, alone or with others, or about its whole joint.
  [[nodiscard]] bool is_about(int at) const;
};

// Of all parts together; that of the part where there is one.
[[nodiscard]] std::string evidence_of(const Deviation& deviation);

// The positions whose parts are not settled, rising.
[[nodiscard]] std::vector<int> open_positions(const Deviation& deviation);

}  // namespace audit
