#include "audit/audit.h"

#include <algorithm>
#include <optional>
#include <string>

#include "audit/evidence.h"
#include "audit/explanation.h"
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

std::string_view word_of(Weight weight) { return weight == Weight::Likely ? "likely" : "possible"; }

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all = {
      kFoundLow,
      kFoundHigh,
      kFoundUndecided,
      kFoundNotComparable,
      kUnitSlip,
      kOutlier,
      kWholeJointOff,
      kRepeatedFinding,
      kFoundAfterTightening,
      kNoSpecification,
      kNoSource,
      kSourcesDisagree,
      kConditionMismatch,
      kCountOut,
      kBagMissing,
      kOutTwice,
      kFoundEmpty,
      kBreakLoose,
      kDamagedThread,
      kOtherFastener,
      kOneTime,
      kNotRenewed,
      kRenewedInPlace,
      kWrenchRange,
      kWrenchCalibration,
      kWrenchScale,
      kWrenchFoundOff,
      kNoWrench,
      kImplausible,
      kOverstretched,
      kStrayEntry,
      kHoldPoint,
      kNoOrder,
      kJointOrder,
      kPassOrder,
      kPositionOrder,
      kPassSkipped,
      kOtherTarget,
      kOverTorqued,
      kUnderTorqued,
      kTurn,
      kTightenedOutOfRange,
      kTightenedOutOfCalibration,
      kNoFinalStripe,
      kStripeTooEarly,
      kSecondPerson,
      kNotBack,
      kItemCount,
      kRecheckOverdue,
      kStripeTurned,
  };
  return all;
}

std::size_t Audit::open(Level level) const {
  return static_cast<std::size_t>(std::ranges::count_if(deviations, [&](const auto& found) {
    return found.level == level && found.settled == nullptr;
  }));
}

bool Audit::ready() const { return open(Level::Hold) == 0; }

std::vector<const Deviation*> in_the_way(const Audit& audit) {
  std::vector<const Deviation*> found;
  for (const auto& deviation : audit.deviations) {
    const bool is_about_the_end =
        deviation.rule == kRecheckOverdue.name || deviation.rule == kStripeTooEarly.name;
    if (deviation.holds_up() || (is_about_the_end && deviation.settled == nullptr)) {
      found.push_back(&deviation);
    }
  }
  return found;
}

Audit run(const Case& subject) {
  std::optional<progress::WorkDone> work;
  std::string no_order;
  try {
    work.emplace(subject.job, subject.survey, record::local_day(subject.now));
  } catch (const plan::PlanCycle& cycle) {
    no_order = cycle.what();
  }
  Case whole{subject.job, subject.survey, subject.now, work ? &*work : nullptr, no_order};
  if (work) {
    whole.rechecks = progress::due_rechecks(subject.job, subject.survey, work->progress(),
                                            subject.now, std::nullopt);
  }
  whole.patterns.reserve(subject.survey.joints.size());
  for (const auto& joint : subject.survey.joints) whole.patterns.push_back(pattern_of(joint));
  Audit audit;
  const Evidence evidence(whole);
  for (const auto& rule : rules()) {
    const auto before = audit.deviations.size();
    rule.look(whole, audit.deviations);
    for (auto i = before; i < audit.deviations.size(); ++i) {
      auto& deviation = audit.deviations[i];
      deviation.evidence = evidence.fingerprint(rule, deviation);
    }
  }
  // Rules and joints each come in their own fixed order; a stable sort keeps it within a level.
  std::ranges::stable_sort(audit.deviations, {}, &Deviation::level);
  explain(whole, audit.deviations);
  apply_dispositions(whole.job, audit.deviations);
  for (auto& deviation : audit.deviations) {
    if (deviation.settled_before == nullptr) continue;
    const auto rule = std::ranges::find(rules(), deviation.rule, &Rule::name);
    deviation.lines_since = evidence.lines_since(deviation.settled_before->stamp, *rule, deviation);
  }
  return audit;
}

}  // namespace audit
