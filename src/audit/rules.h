#pragma once

#include "audit/rule.h"

namespace audit {

// The rules, one object each; what a rule looks at stands in its definition. Ten have to see the
// whole job, and say here why; all others look at one joint at a time.

// found_rules.cpp
extern const Rule kFoundLow;
extern const Rule kFoundHigh;
extern const Rule kFoundUndecided;
extern const Rule kFoundNotComparable;
extern const Rule kUnitSlip;
extern const Rule kRepeatedFinding;
extern const Rule kFoundApart;

// joint_pattern_rules.cpp
extern const Rule kOutlier;
extern const Rule kWholeJointOff;

// test_rules.cpp
extern const Rule kNotToBeTested;
extern const Rule kFoundAfterTightening;

// specification_rules.cpp
extern const Rule kNoSpecification;
extern const Rule kNoSource;
extern const Rule kSourcesDisagree;
extern const Rule kConditionMismatch;
extern const Rule kCorrectedAfter;

// fastener_rules.cpp
extern const Rule kCountOut;
extern const Rule kNeverOut;
extern const Rule kFoundEmpty;
extern const Rule kBreakLoose;
extern const Rule kOtherFastener;
extern const Rule kBagMissing;
extern const Rule kDamagedThread;
extern const Rule kDamagedHole;

// renewal_rules.cpp
extern const Rule kOneTime;
extern const Rule kNotRenewed;
inline constexpr std::string_view kOldIn = "old-in";  // its kind where the old one is in
extern const Rule kRenewedInPlace;

// count_rules.cpp
extern const Rule kNotBack;
extern const Rule kFluidBalance;  // the job: a fluid is of no joint
extern const Rule kItemCount;
extern const Rule kClosedOver;

// wrench_rules.cpp
extern const Rule kWrenchRange;
extern const Rule kWrenchCalibration;
extern const Rule kWrenchScale;

// wrench_fitness_rules.cpp
extern const Rule kWrenchFoundOff;
extern const Rule kNoWrench;
extern const Rule kCoarseWrench;
extern const Rule kTighteningScale;
extern const Rule kTightenedOutOfRange;
extern const Rule kTightenedOutOfCalibration;

// plausibility_rules.cpp
extern const Rule kImplausible;
extern const Rule kThreadStrips;
extern const Rule kHeadPressesIn;
extern const Rule kOverstretched;
extern const Rule kTightenedPastYield;

// record_rules.cpp
extern const Rule kStrayEntry;  // the job: what its lines name is not there, so no joint has them
extern const Rule kOutTwice;
extern const Rule kTightenedBeforeOut;
extern const Rule kDatedTooEarly;

// time_rules.cpp
extern const Rule kTestedInBag;
extern const Rule kCounterBackwards;  // the job: the machine has one counter for all its joints
extern const Rule kAheadOfClock;      // the job: lines about no joint have a time too

// reference_rules.cpp
extern const Rule kMissingJoint;  // the job: items and hold points name joints and are of none

// hold_point_rules.cpp
extern const Rule kHoldPoint;

// order_rules.cpp
extern const Rule kNoOrder;  // the job: joints that wait for each other in a circle
extern const Rule kJointOrder;
extern const Rule kPassOrder;
extern const Rule kPositionOrder;

// apart_rules.cpp, of merged copies: what was written on both sides is about any code, joint or
// none
extern const Rule kTwoMeanings;   // the job: wrenches, hold points and items are of no joint
extern const Rule kDecidedApart;  // the job: decisions are about joints and about none
extern const Rule kLoggedApart;   // the job: fluids, items and hold points are of no joint
extern const Rule kTightenedApart;
extern const Rule kStripedApart;
extern const Rule kLookedApart;
extern const Rule kArrivedApart;
extern const Rule kStruckApart;  // the job: it begins with the lines that are struck

// cover_rules.cpp
extern const Rule kUnderCover;
extern const Rule kLookedUnderCover;

// tightening_rules.cpp
extern const Rule kPassSkipped;
extern const Rule kOtherTarget;
extern const Rule kOverTorqued;
extern const Rule kUnderTorqued;
extern const Rule kSetOtherwise;
extern const Rule kRunningTorqueLeftOut;
extern const Rule kDoneByTwo;
extern const Rule kTurn;

// finish_rules.cpp
extern const Rule kNoFinalStripe;
extern const Rule kStripeTooEarly;
extern const Rule kTwoMarks;
extern const Rule kSecondPerson;

// recheck_rules.cpp
extern const Rule kRecheckOverdue;
extern const Rule kStripeTurned;

}  // namespace audit
