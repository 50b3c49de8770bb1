#include "audit/decision_table.h"

#include <algorithm>
#include <vector>

#include "audit/rules.h"

namespace audit {
namespace {

using record::Decision;

// Decisions that mean nothing on the deviations of a rule, or on those of one kind of it; every
// other one is taken.
struct NotTaken {
  const Rule* rule = nullptr;
  std::vector<Decision> decisions;
  std::string_view why;
  std::string_view kind = {};  // empty for all
};

const std::vector<NotTaken>& table() {
  static const std::vector<Decision> as_is = {Decision::UseAsIs};
  static const std::vector<Decision> on_fasteners = {Decision::ReTorque, Decision::Renew,
                                                     Decision::Repair};
  static const std::vector<Decision> re_torque = {Decision::ReTorque};
  static const std::vector<Decision> on_paper = {Decision::ReTorque, Decision::Renew};
  static const std::vector<Decision> but_renew = {Decision::ReTorque, Decision::Repair};
  static const std::vector<Decision> but_repair = {Decision::ReTorque, Decision::Renew};
  static const std::vector<Decision> but_retorque = {Decision::Renew, Decision::Repair};
  static const std::vector<Decision> none_but_renew = {Decision::UseAsIs, Decision::ReTorque,
                                                       Decision::Repair};
  constexpr std::string_view kNoFastener =
      "it is about the record and about no fastener; correct-record closes it once the line is put "
      "right";
  constexpr std::string_view kWrenchAlone =
      "nothing speaks against the fastener, only against the wrench; take re-torque, use-as-is "
      "where another wrench told, or correct-record";
  constexpr std::string_view kOpenPass =
      "the pass stays open until it is done as the plan asks; take re-torque or renew, or correct "
      "the specification or the line where one of them is wrong";
  static const std::vector<NotTaken> all = {
      {&kStripeTurned, as_is,
       "the position stays open until it is slackened, looked at, brought to its final value and "
       "striped anew; take re-torque, renew or repair, or correct-record where the look was wrong"},
      {&kFoundAfterTightening, as_is, kOpenPass},
      {&kOverTorqued, as_is, kOpenPass},
      {&kTurn, as_is, kOpenPass},
      {&kOtherTarget, as_is, kOpenPass},
      {&kDatedTooEarly, as_is, kOpenPass},
      {&kStripeTooEarly, as_is,
       "the stripe seals no final value; bring the joint to it, then draw the stripe again: stripe "
       "JOINT/POSITIONS --wiped"},
      {&kTwoMarks, on_fasteners,
       "it is about the marks and not about the fastener; wipe the teardown mark and record it: "
       "stripe JOINT/POSITIONS --wiped"},
      {&kNotBack, as_is,
       "its passes stay open until every fastener is back; tighten what is missing, or take "
       "correct-record where the record is wrong"},
      {&kPassSkipped, as_is,
       "the pass stays open until it is done; tighten it with --pass, or correct the specification "
       "where it does not ask for it"},
      {&kNoFinalStripe, as_is,
       "the joint stays open until its stripes are drawn: stripe JOINT/POSITIONS --wiped"},
      {&kSecondPerson, as_is,
       "the joint stays open until another person has checked it: tighten JOINT/POSITIONS --check "
       "--by WHO"},
      {&kItemCount, as_is,
       "the count stays open until all are back: item CODE --back N; correct the count with "
       "--replace where it was wrong"},
      {&kItemCount, on_fasteners, kNoFastener},
      {&kDamagedThread, but_renew,
       "neither tightening nor a word makes a torn fastener sound; take renew for the fastener, or "
       "use-as-is where it was looked at and is sound",
       "fastener"},
      {&kDamagedThread, but_repair,
       "neither tightening nor a new fastener mends the thread in the hole; take repair for the "
       "hole, or use-as-is where a good one ran through it by hand",
       "hole"},
      {&kDamagedHole, but_repair,
       "neither tightening nor a new fastener mends the thread in the hole; take repair for the "
       "hole, or use-as-is where a good one ran through it by hand"},
      {&kOtherFastener, but_renew,
       "neither tightening nor a word makes it the joint's own; take renew, use-as-is where it is "
       "right there, or correct-record where the line is wrong",
       "another"},
      {&kOtherFastener, re_torque,
       "tightening changes no length; take repair where they go back to their own places, renew, "
       "or use-as-is where it is right there",
       "swapped"},
      {&kBreakLoose, none_but_renew,
       "what sheared is in two parts and goes back nowhere; take renew, or correct-record where "
       "the line is wrong",
       "sheared"},
      {&kFoundEmpty, but_renew,
       "there is nothing in the hole to work on; take renew, or use-as-is where it stays empty"},
      {&kOverstretched, but_renew,
       "nothing makes it shorter again; take renew, or use-as-is where its length was held against "
       "a new one"},
      {&kNotRenewed, none_but_renew,
       "a new one is asked for there, and none is on record as in; take renew, or correct-record "
       "where a new one went in and the line is missing"},
      {&kOneTime, but_renew,
       "nothing makes a used one-time fastener a new one; take renew, or use-as-is where the "
       "maker allows it"},
      {&kHoldPoint, on_fasteners,
       "it is about what was done before it was safe, and no work on a fastener undoes that; take "
       "use-as-is where somebody saw that all is well, or correct-record where it had been passed"},
      {&kWrenchScale, on_fasteners, kNoFastener},
      {&kTighteningScale, but_retorque,
       "a new fastener or a repair does not tell what was set; take re-torque, or correct-record "
       "where the wrench or the line is wrong"},
      {&kTightenedOutOfRange, but_retorque, kWrenchAlone},
      {&kTightenedOutOfCalibration, but_retorque, kWrenchAlone},
      {&kJointOrder, but_retorque,
       "a new fastener or a repair makes no other order of it; take re-torque where it is opened "
       "again, use-as-is where it can still be reached, or correct-record"},
      {&kFluidBalance, on_fasteners, kNoFastener},
      {&kNoOrder, as_is,
       "no plan can be made while they wait for each other; correct one of the joints with joint "
       "--replace"},
      {&kNoOrder, on_fasteners, kNoFastener},
      {&kTwoMeanings, on_fasteners, kNoFastener},
      {&kDecidedApart, on_fasteners, kNoFastener},
      {&kStripedApart, on_fasteners, kNoFastener},
      {&kArrivedApart, on_fasteners, kNoFastener},
      {&kStruckApart, on_fasteners, kNoFastener},
      {&kLoggedApart, on_fasteners, kNoFastener},
      {&kStrayEntry, as_is,
       "what it says counts for nothing while what it is about is not there; enter that again, or "
       "strike the line, or take correct-record where that is still to be done"},
      {&kStrayEntry, on_fasteners, kNoFastener},
      {&kMissingJoint, on_fasteners, kNoFastener},
      {&kCounterBackwards, on_fasteners, kNoFastener},
      {&kAheadOfClock, on_fasteners, kNoFastener},
      {&kNoSource, on_fasteners, kNoFastener},
      {&kNoSpecification, on_paper,
       "there is no torque to bring it to; enter a specification: joint JOINT --spec ..."},
      {&kNoWrench, on_paper,
       "it is about the wrenches and about no fastener; get or enter one that covers the torque"},
      {&kCoarseWrench, on_paper,
       "it is about the wrenches and about no fastener; get or enter one that is off by less"},
  };
  return all;
}

}  // namespace

std::string_view why_not(const Deviation& deviation, Decision decision) {
  for (const auto& each : table()) {
    if (each.rule->name == deviation.rule && (each.kind.empty() || each.kind == deviation.kind) &&
        std::ranges::find(each.decisions, decision) != each.decisions.end()) {
      return each.why;
    }
  }
  return {};
}

}  // namespace audit
