#include "audit/audit.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "audit/evidence.h"
#include "audit/explanation.h"
#include "audit/rules.h"
#include "audit/settlement.h"
#include "audit/together.h"
#include "progress/plan_under_way.h"
#include "record/address.h"

namespace audit {

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
      kFoundApart,
      kNotToBeTested,
      kFoundAfterTightening,
      kTightenedBeforeOut,
      kDatedTooEarly,
      kTestedInBag,
      kNoSpecification,
      kNoSource,
      kTwoMeanings,
      kSourcesDisagree,
      kConditionMismatch,
      kCorrectedAfter,
      kCountOut,
      kNeverOut,
      kBagMissing,
      kOutTwice,
      kFoundEmpty,
      kBreakLoose,
      kDamagedThread,
      kDamagedHole,
      kOtherFastener,
      kOneTime,
      kNotRenewed,
      kRenewedInPlace,
      kWrenchRange,
      kWrenchCalibration,
      kWrenchScale,
      kWrenchFoundOff,
      kNoWrench,
      kCoarseWrench,
      kImplausible,
      kThreadStrips,
      kHeadPressesIn,
      kOverstretched,
      kTightenedPastYield,
      kDecidedApart,
      kTightenedApart,
      kStripedApart,
      kLookedApart,
      kArrivedApart,
      kStruckApart,
      kLoggedApart,
      kStrayEntry,
      kMissingJoint,
      kCounterBackwards,
      kAheadOfClock,
      kHoldPoint,
      kNoOrder,
      kJointOrder,
      kUnderCover,
      kLookedUnderCover,
      kPassOrder,
      kPositionOrder,
      kPassSkipped,
      kOtherTarget,
      kOverTorqued,
      kUnderTorqued,
      kSetOtherwise,
      kRunningTorqueLeftOut,
      kDoneByTwo,
      kTurn,
      kTighteningScale,
      kTightenedOutOfRange,
      kTightenedOutOfCalibration,
      kNoFinalStripe,
      kStripeTooEarly,
      kTwoMarks,
      kSecondPerson,
      kNotBack,
      kItemCount,
      kFluidBalance,
      kClosedOver,
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

bool Audit::in_order() const { return ready() && to_do.empty(); }

std::vector<const Deviation*> in_the_way(const Audit& audit) {
  std::vector<const Deviation*> found;
  for (const auto& deviation : audit.deviations) {
    if (deviation.is_to_settle()) found.push_back(&deviation);
  }
  return found;
}

std::vector<const Deviation*> looks_due(const Audit& audit) {
  std::vector<const Deviation*> found;
  for (const auto& deviation : audit.deviations) {
    if (deviation.rule == kRecheckOverdue.name && deviation.settled == nullptr &&
        !deviation.is_to_settle()) {
      found.push_back(&deviation);
    }
  }
  return found;
}

bool is_contradiction(const Deviation& deviation) {
  return std::ranges::any_of(
      std::initializer_list<const Rule*>{&kFoundApart, &kTwoMeanings, &kDecidedApart,
                                         &kTightenedApart, &kStripedApart, &kLookedApart,
                                         &kArrivedApart, &kStruckApart, &kLoggedApart, &kOutTwice},
      [&](const Rule* rule) { return rule->name == deviation.rule; });
}

std::vector<int> positions_marked(const Deviation& deviation, int count) {
  auto marked = open_positions(deviation);
  if (!marked.empty() || deviation.settled != nullptr) return marked;
  marked = deviation.positions;
  if (!marked.empty() || !is_contradiction(deviation)) return marked;
  for (int position = 1; position <= count; ++position) marked.push_back(position);
  return marked;
}

std::set<int> positions_held(const Audit& audit, const record::Joint& joint) {
  std::set<int> held;
  for (const auto& deviation : audit.deviations) {
    if (!deviation.holds_up() || !record::same_code(deviation.joint, joint.code)) continue;
    const auto marked = positions_marked(deviation, joint.count);
    held.insert(marked.begin(), marked.end());
  }
  return held;
}

std::vector<const progress::DecidedWork*> to_do_of(const Audit& audit, const Deviation& deviation) {
  std::vector<const progress::DecidedWork*> open;
  const auto is_decided = [](const Part& part) {
    return part.settled != nullptr || part.settled_before != nullptr;
  };
  if (std::ranges::none_of(deviation.parts, is_decided)) return open;
  for (const auto& work : audit.to_do) {
    const bool is_of_it = std::ranges::any_of(deviation.parts, [&](const Part& part) {
      const bool is_open_again = part.settled == nullptr && part.settled_before == work.decision;
      return (part.settled == work.decision || is_open_again) &&
             (!part.position || work.open.empty() ||
              std::ranges::binary_search(work.open, *part.position));
    });
    if (is_of_it) open.push_back(&work);
  }
  return open;
}

std::vector<const progress::DecidedWork*> to_do_besides(const Audit& audit) {
  std::unordered_set<const progress::DecidedWork*> named;
  for (const auto& deviation : audit.deviations) {
    const auto of_it = to_do_of(audit, deviation);
    named.insert(of_it.begin(), of_it.end());
  }
  std::vector<const progress::DecidedWork*> besides;
  for (const auto& work : audit.to_do) {
    if (!named.contains(&work)) besides.push_back(&work);
  }
  return besides;
}

namespace {

// Looks with every rule and keeps what it finds, fingerprints put to it.
class Looking {
 public:
  Looking(const Case& whole, std::vector<progress::DueRecheck> rechecks)
      : whole_(whole), evidence_(whole), explainer_(whole) {
    for (auto& due : rechecks) {
      rechecks_[record::folded_code(due.joint->code)].push_back(std::move(due));
    }
  }

  void at_job() {
    for (const auto& rule : rules()) {
      if (const auto* look = std::get_if<LooksAtJob>(&rule.look)) {
        (*look)(whole_, found_);
        take(rule);
      }
    }
    tell_together();
  }

  void at_joint(const finding::JointState& joint) {
    JointCase at{whole_, joint, whole_.lookups->lines.of(joint.joint->code), pattern_of(joint)};
    if (whole_.work != nullptr) at.work = whole_.work->joint(joint.joint->code);
    const auto due = rechecks_.find(record::folded_code(joint.joint->code));
    if (due != rechecks_.end()) at.rechecks = due->second;
    for (const auto& rule : rules()) {
      if (const auto* look = std::get_if<LooksAtJoint>(&rule.look)) (*look)(at, found_);
      if (const auto* look = std::get_if<LooksAtPosition>(&rule.look)) {
        for (const auto& position : joint.positions) (*look)(at, position, found_);
      }
      const auto before = taken_;
      take(rule);
      for (auto i = before; i < taken_; ++i) explainer_.explain(at, found_[i]);
    }
    tell_together();
  }

  // Takes out all that was found, alike ones together: holds first, by rule within, joints in their
  // order.
  Deviations take_all() {
    const auto rank = [](const Deviation& deviation) {
      return std::pair(deviation.level, rule_of(deviation) - rules().data());
    };
    std::ranges::stable_sort(told_, {}, rank);
    apply_dispositions(whole_.job, told_);
    for (auto& deviation : told_) name_lines_since(deviation);
    return std::move(told_);
  }

 private:
  static const Rule* rule_of(const Deviation& deviation) {
    return &*std::ranges::find(rules(), deviation.rule, &Rule::name);
  }

  void take(const Rule& rule) {
    for (; taken_ < found_.size(); ++taken_) {
      auto& deviation = found_[taken_];
      for (auto& part : deviation.parts) {
        part.evidence = evidence_.fingerprint(rule, deviation, part);
        part.newest = evidence_.newest(rule, deviation, part);
        if (part.told_in == nullptr) part.told_in = evidence_.finding(rule, deviation, part);
        if (part.told_in == nullptr) part.told_in = part.newest;
        part.old_evidence = evidence_.old_fingerprint(rule, deviation, part);
      }
    }
  }

  // What is alike is of one rule and of one joint, so that no more is held one by one.
  void tell_together() {
    auto together = told_together(whole_, std::exchange(found_, {}));
    std::ranges::move(together, std::back_inserter(told_));
    taken_ = 0;
  }

  void name_lines_since(Deviation& deviation) const {
    for (auto& part : deviation.parts) {
      if (part.settled_before == nullptr) continue;
      evidence_.name_lines_since(*rule_of(deviation), deviation, part);
      add_once(part.lines_since, deviation.lines_since);
    }
  }

  // Keeps them rising.
  static void add_once(const std::vector<std::int64_t>& some, std::vector<std::int64_t>& all) {
    all.insert(all.end(), some.begin(), some.end());
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
  }

  const Case& whole_;
  Evidence evidence_;
  Explainer explainer_;
  std::unordered_map<std::string, std::vector<progress::DueRecheck>> rechecks_;  // by folded code
  Deviations found_;       // of the joint that is looked at, or of the job
  std::size_t taken_ = 0;  // of them have their fingerprints
  Deviations told_;
};

// What the deviations name still of what was decided, so that no decision goes through all of them.
class StillNamed {
 public:
  explicit StillNamed(const Deviations& deviations) {
    for (const auto& deviation : deviations) {
      for (const auto& part : deviation.parts) {
        if (part.settled != nullptr) settling_.insert(part.settled);
        if (!part.position) continue;
        for (const auto* decision : {part.settled, part.settled_before}) {
          if (decision != nullptr) positions_[decision].insert(*part.position);
        }
      }
    }
  }

  // A record that was to be corrected has been once it is gone or says something else.
  [[nodiscard]] bool still_stands(const progress::DecidedWork& work) const {
    return work.decision->content.decision != record::Decision::CorrectRecord ||
           settling_.contains(work.decision);
  }

  // Where others of a decision are named still and a position is not, what was decided of that is
  // gone: a finding was put right, say.
  void leave_out_what_is_gone(progress::DecidedWork& work) const {
    const auto named = positions_.find(work.decision);
    if (named == positions_.end()) return;
    const auto is_gone = [&](int position) { return !named->second.contains(position); };
    if (std::ranges::all_of(work.open, is_gone)) return;
    std::erase_if(work.open, is_gone);
    std::erase_if(work.old_in, is_gone);
  }

 private:
  std::unordered_set<const Decided*> settling_;
  std::unordered_map<const Decided*, std::unordered_set<int>> positions_;
};

// `code` for what is about one joint alone.
Audit audited(const Case& subject, std::optional<std::string_view> code) {
  Case whole = subject;
  std::optional<progress::PlanUnderWay> own_plan;
  std::string no_order;
  std::string order_mend;
  if (whole.progress == nullptr && whole.no_order.empty()) {
    try {
      own_plan.emplace(subject.job, subject.survey,
                       progress::joints_worked_on(subject.job, subject.survey),
                       record::local_day(subject.now));
      whole.progress = &own_plan->progress;
    } catch (const plan::PlanCycle& cycle) {
      no_order = cycle.circle();
      whole.no_order = no_order;
      order_mend = cycle.mend();
      whole.order_mend = order_mend;
    }
  }
  std::optional<progress::WorkDone> work;
  if (whole.progress != nullptr) {
    work.emplace(subject.job, subject.survey, *whole.progress);
    whole.work = &*work;
  }
  const Lookups lookups(subject.job, subject.survey, subject.now);
  whole.lookups = &lookups;
  const auto* progress = whole.progress;
  Looking looking(whole, progress == nullptr
                             ? std::vector<progress::DueRecheck>{}
                             : progress::due_rechecks(subject.job, subject.survey, *progress,
                                                      subject.now, std::nullopt));
  looking.at_job();
  for (const auto& joint : subject.survey.joints) {
    if (!code || record::same_code(joint.joint->code, *code)) looking.at_joint(joint);
    if (subject.joint_done) subject.joint_done();
  }
  Audit audit{looking.take_all()};
  audit.to_do = progress::decided_work(subject.job, subject.survey, progress);
  if (code) {
    std::erase_if(audit.deviations, [&](const Deviation& deviation) {
      return !record::same_code(deviation.joint, *code);
    });
    std::erase_if(audit.to_do, [&](const progress::DecidedWork& open) {
      return !record::same_code(open.decision->content.joint, *code);
    });
  }
  const StillNamed named(audit.deviations);
  for (auto& open : audit.to_do) named.leave_out_what_is_gone(open);
  std::erase_if(audit.to_do,
                [&](const progress::DecidedWork& open) { return !named.still_stands(open); });
  return audit;
}

}  // namespace

Lookups::Lookups(const record::Job& job, const finding::Survey& survey, record::Moment now)
    : joints(survey),
      lines(job),
      odd_lengths(survey),
      new_fasteners(job, survey),
      broken_loose(job),
      decided(job, survey),
      calibrations(job),
      wrench_choice(job, record::local_day(now)),
      hold_points(job),
      covers(job, survey, decided),
      is_closing(std::ranges::any_of(
          job.tightenings, [](const auto& entry) { return record::is_work(entry.content); })) {
  for (const auto& renewing : plan::renewal_list(job, survey, plan::RenewalsBy::RecordAlone)) {
    renewals[record::folded_code(renewing.joint->joint->code)].push_back(renewing);
  }
  for (const auto& item : progress::item_counts(job)) {
    items[record::folded_code(item.item->before)].push_back(item);
  }
}

bool is_left_alone(const JointCase& at, int position) {
  return at.whole.lookups->decided.at(at.joint.joint->code, position).left_alone != nullptr;
}

Audit run(const Case& subject) { return audited(subject, std::nullopt); }

Audit run_for_joint(const Case& subject, std::string_view code) { return audited(subject, code); }

const Cause* likeliest_cause(const Audit& audit, int position) {
  for (const auto& deviation : audit.deviations) {
    if (deviation.is_about(position) && !deviation.causes.empty()) return &deviation.causes.front();
  }
  return nullptr;
}

}  // namespace audit
