#pragma once

#include "audit/audit.h"

namespace audit {

// The rules, one object each; what a rule looks at stands in its definition.

// found_rules.cpp
extern const Rule kFoundLow;
extern const Rule kFoundHigh;
extern const Rule kFoundUndecided;
extern const Rule kFoundNotComparable;
extern const Rule kUnitSlip;
extern const Rule kRepeatedFinding;

// specification_rules.cpp
extern const Rule kNoSpecification;
extern const Rule kNoSource;
extern const Rule kSourcesDisagree;

// fastener_rules.cpp
extern const Rule kCountOut;
extern const Rule kFoundEmpty;
extern const Rule kBreakLoose;
extern const Rule kOtherFastener;
extern const Rule kOneTime;

// wrench_rules.cpp
extern const Rule kWrenchRange;
extern const Rule kWrenchCalibration;
extern const Rule kWrenchScale;

// plausibility_rules.cpp
extern const Rule kImplausible;
extern const Rule kOverstretched;

// record_rules.cpp
extern const Rule kStrayEntry;

}  // namespace audit
