#include "audit/audit.h"

#include <algorithm>

#include "audit/evidence.h"
#include "audit/rules.h"
#include "audit/settlement.h"

namespace audit {

std::string_view word_of(Level level) {
  switch (level) {
    case Level::Hold:
      return "hold";
    case Level::Check:
      return "check";
    case Level::Note:
      return "note";
  }
  return "note";
}

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all = {
      kFoundLow,        kFoundHigh,       kFoundUndecided,  kFoundNotComparable,
      kUnitSlip,        kRepeatedFinding, kNoSpecification, kNoSource,
      kSourcesDisagree, kCountOut,        kFoundEmpty,      kBreakLoose,
      kOtherFastener,   kOneTime,         kWrenchRange,     kWrenchCalibration,
      kWrenchScale,     kImplausible,     kOverstretched,   kStrayEntry,
  };
  return all;
}

std::size_t Audit::open(Level level) const {
  return static_cast<std::size_t>(std::ranges::count_if(deviations, [&](const auto& found) {
    return found.level == level && found.settled == nullptr;
  }));
}

bool Audit::ready() const { return open(Level::Hold) == 0; }

Audit run(const Case& subject) {
  Audit audit;
  const Evidence evidence(subject);
  for (const auto& rule : rules()) {
    const auto before = audit.deviations.size();
    rule.look(subject, audit.deviations);
    for (auto i = before; i < audit.deviations.size(); ++i) {
      auto& deviation = audit.deviations[i];
      deviation.evidence = evidence.fingerprint(rule, deviation);
    }
  }
  // Rules and joints each come in their own fixed order; a stable sort keeps it within a level.
  std::ranges::stable_sort(audit.deviations, {}, &Deviation::level);
  apply_dispositions(subject.job, audit.deviations);
  return audit;
}

}  // namespace audit
