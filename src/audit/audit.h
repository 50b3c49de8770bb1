#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "audit/case.h"
#include "audit/deviation.h"
#include "audit/rule.h"
#include "progress/decided_work.h"

namespace audit {

// Every rule there is. The table of the manual (help audit-rules) is this one.
[[nodiscard]] const std::vector<Rule>& rules();

struct Audit {
  std::vector<Deviation> deviations;  // holds first, then checks, then notes; by rule within
  // Decided and not done yet. A record that was to be corrected is among them while it stands.
  std::vector<progress::DecidedWork> to_do = {};
  [[nodiscard]] std::size_t open(Level level) const;  // how many are not settled
  [[nodiscard]] bool ready() const;                   // no hold is open
  [[nodiscard]] bool in_order() const;                // nor anything decided and not done
};

// What keeps a job from being finished: the open holds, and of the open checks those that say so
// (Deviation::keeps_unfinished): the first look is overdue, a stripe does not stand for the final
// value or stands beside another mark, a joint was tightened that never came out, a critical joint
// was tightened in another order, to another value or with another wrench than it should have been.
// Besides, `to_do`.
[[nodiscard]] std::vector<const Deviation*> in_the_way(const Audit& audit);

// Looks at final stripes that repeat and are due: they do not keep the job from being finished.
[[nodiscard]] std::vector<const Deviation*> looks_due(const Audit& audit);

// Whether it is about one thing that was written twice, as when copies of the logbook were apart.
[[nodiscard]] bool is_contradiction(const Deviation& deviation);

// Where a drawing of its joint, which has so many positions, shows it: at its open ones, at those
// that it names, or at all, where merged copies contradict each other about the whole joint.
[[nodiscard]] std::vector<int> positions_marked(const Deviation& deviation, int count);

// The positions of the joint at which a drawing of it marks something that holds up reassembly.
[[nodiscard]] std::set<int> positions_held(const Audit& audit, const record::Joint& joint);

// What of the deviation was decided and is not done yet; where it is open again also what was
// decided before, which is to be done until it is decided anew.
[[nodiscard]] std::vector<const progress::DecidedWork*> to_do_of(const Audit& audit,
                                                                 const Deviation& deviation);

// What was decided of a matter that the audit does not name any more.
[[nodiscard]] std::vector<const progress::DecidedWork*> to_do_besides(const Audit& audit);

// Runs every rule, those about a position or a joint over one joint at a time; explains what they
// find (explanation.h), tells alike findings of a joint together (together.h) and puts the
// decisions to them (settlement.h).
[[nodiscard]] Audit run(const Case& subject);

// The same for what is about one joint: the rules about a position or a joint look at no other.
[[nodiscard]] Audit run_for_joint(const Case& subject, std::string_view code);

// Of what the audit of a joint has against this position: the likeliest cause for which a fact
// speaks; nothing where none does.
[[nodiscard]] const Cause* likeliest_cause(const Audit& audit, int position);

}  // namespace audit
