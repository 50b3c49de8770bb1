#pragma once

#include <string_view>
#include <vector>

#include "audit/deviation.h"
#include "audit/joint_pattern.h"
#include "finding/survey.h"
#include "progress/due_rechecks.h"
#include "progress/work_done.h"

namespace audit {

// What the rules look at.
struct Case {
  const record::Job& job;
  const finding::Survey& survey;
  record::Moment now;
  // What is on record of the reassembly. `run` sees to it; nothing where no order can be found.
  const progress::WorkDone* work = nullptr;
  std::string_view no_order = {};  // why not
  // The looks at final stripes that are due, now or later; `run` sees to them too.
  std::vector<progress::DueRecheck> rechecks = {};
  // What the findings of each joint have in common, in the order of the survey; by `run` as well.
  std::vector<JointPattern> patterns = {};
};

// The lines that a deviation rests on besides the figures that it states: one more or one less of
// them, and a decision on it has to be made again.
struct RestsOn {
  bool removals = false;
  bool findings = false;
  bool tightenings = false;
};

// One rule: a name, what it looks at, the deviations it finds, and what those rest on.
struct Rule {
  std::string_view name;
  std::string_view looks_at;
  void (*look)(const Case&, std::vector<Deviation>&);
  RestsOn rests_on = {};
};

// Every rule there is. The table in the README is this one.
[[nodiscard]] const std::vector<Rule>& rules();

struct Audit {
  std::vector<Deviation> deviations;  // holds first, then checks, then notes; by rule within
  [[nodiscard]] std::size_t open(Level level) const;  // how many are not settled
  [[nodiscard]] bool ready() const;                   // no hold is open
};

// What keeps a job from being finished: the open holds, and of the open checks those that say that
// a look is overdue or a stripe does not stand for the final value.
[[nodiscard]] std::vector<const Deviation*> in_the_way(const Audit& audit);

// Runs every rule over the job, in one pass each, explains what it finds (explanation.h) and puts
// the decisions to it (settlement.h).
[[nodiscard]] Audit run(const Case& subject);

}  // namespace audit
