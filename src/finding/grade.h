#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "fastener/condition.h"
#include "finding/found_torque.h"
#include "record/removal.h"

namespace finding {

// How far a finding may be trusted; X is not evidence at all.
enum class Grade { A, B, C, X };

[[nodiscard]] char letter_of(Grade grade);

// Whether this setting had to be estimated between two marks. An indicating wrench is read so by
// its nature; of a scale that the wrench no longer has nothing can be said.
[[nodiscard]] bool is_between_marks(const record::Measured& measured, const record::Wrench& wrench,
                                    double setting);

// What the grade rules look at.
struct Circumstances {
  const record::Measured& measured;
  const FoundTorque& torque;
  const record::Wrench* wrench;  // as it was on the day; none where it was struck since
  record::Day day;
  std::optional<record::BreakLoose> broke;  // nothing where no removal is on record
  bool marked = true;
  fastener::Condition condition = fastener::Condition::AsReceived;
};

// One rule: where it applies, the finding is at most of this grade.
struct GradeRule {
  std::string_view name;
  Grade at_most;
  std::string_view why;
  std::string_view better;  // what would have made, or would make, better evidence
  bool (*applies)(const Circumstances&);
};

// All the rules there are, worst grade first. The table of the manual (help evidence) is this one.
[[nodiscard]] const std::vector<GradeRule>& grade_rules();

struct Graded {
  Grade grade = Grade::A;
  std::vector<const GradeRule*> rules;  // those that apply, worst first; empty for a clean A
};

[[nodiscard]] Graded grade(const Circumstances& circumstances);

}  // namespace finding
