#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "audit/case.h"
#include "audit/deviation.h"

namespace audit {

// The lines that a deviation rests on besides the figures that it states: one more or one less of
// them, and a decision on it has to be made again.
struct RestsOn {
  bool removals = false;
  bool findings = false;
  bool tightenings = false;
};

using Deviations = std::vector<Deviation>;

// What a rule looks at: one position, one joint, or the whole job. The first two see one joint at a
// time, and of the others only what the lookups of the case tell.
using LooksAtPosition = void (*)(const JointCase&, const finding::PositionState&, Deviations&);
using LooksAtJoint = void (*)(const JointCase&, Deviations&);
using LooksAtJob = void (*)(const Case&, Deviations&);
using Look = std::variant<LooksAtPosition, LooksAtJoint, LooksAtJob>;

// What several alike findings of one joint say together.
using Together = std::string (*)(const Case&, const Deviation& together);

// One rule: a name, what it looks at, the deviations it finds, what those rest on, and how those
// that are alike are told together; nothing where each stands for itself.
struct Rule {
  std::string_view name;
  std::string_view looks_at;
  Look look;
  RestsOn rests_on = {};
  Together together = nullptr;
};

}  // namespace audit
