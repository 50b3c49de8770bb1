#pragma once

#include <string_view>
#include <vector>

#include "finding/survey.h"

namespace plan {

// Why a position gets a new fastener. Seized: only where the thread is pulled, so look first.
// Between the passes: the specification settles the joint with the old ones first.
enum class RenewalReason {
  OneTime,
  BetweenPasses,
  Sheared,
  DamagedThread,
  FoundEmpty,
  OtherFastener,
  Overstretched,
  TurnedSpent,
  TestedSpent,
  Decided,
  Seized
};

// The rule of the audit that flags it; empty for what no decision can use as it is.
[[nodiscard]] std::string_view rule_of(RenewalReason reason);

// "one-time", "new ones between the passes", "sheared", "damaged thread", "found empty", "other
// fastener came out", "overstretched", "found turned, and not used again once slackened",
// "tested since it was tightened", "decided", "seized".
[[nodiscard]] std::string_view in_words(RenewalReason reason);

// One position that gets, or may need, a new fastener: the joint's own size, length and grade.
struct Renewing {
  const finding::JointState* joint = nullptr;
  int position = 0;
  std::vector<RenewalReason> reasons;  // at least one
  bool has_arrived = false;            // a new one lies ready, or is in already
  // The tightening that put the old one back before the new one had arrived (new_fasteners.h); none
  // where the old one is not in.
  const record::Stamp* old_went_back = nullptr;
  // The last line that asked for it of a fastener that was in: a new one goes in after that. None
  // where the way in which it came out asks for it.
  const record::Stamp* asked = nullptr;

  [[nodiscard]] bool is_certain() const;  // false where seized is the only reason
  [[nodiscard]] bool is_for(RenewalReason reason) const;
};

// Every position that came out (or was found empty) and gets a new fastener, by joints and
// positions; a self-locking one whose final stripe was found turned, a one-time one that was tested
// after it had been tightened, and one that was decided to be renewed, until a new one went in.
// What was decided to be used as it is gets none. One that swapped places with another joint's only
// goes back where it belongs. An arrival is used up when the position was tightened after it and
// came out again.
//
// By decisions: one that was settled to be used as it is gets none, and one whose renewal was
// decided does. By record alone: what the lines say, whatever was decided about it; so the audit
// asks, which shows a decision beside what it is about.
enum class RenewalsBy { Decisions, RecordAlone };
[[nodiscard]] std::vector<Renewing> renewal_list(const record::Job& job,
                                                 const finding::Survey& survey,
                                                 RenewalsBy by = RenewalsBy::Decisions);

}  // namespace plan
