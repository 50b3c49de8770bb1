#include "audit/audit.h"

#include <algorithm>

#include "audit/rules.h"

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

bool Audit::ready() const {
  return std::ranges::none_of(deviations,
                              [](const auto& found) { return found.level == Level::Hold; });
}

Audit run(const Case& subject) {
  Audit audit;
  for (const auto& rule : rules()) rule.look(subject, audit.deviations);
  // Rules and joints each come in their own fixed order; a stable sort keeps it within a level.
  std::ranges::stable_sort(audit.deviations, {}, &Deviation::level);
  return audit;
}

}  // namespace audit
