#pragma once

#include <string_view>
#include <vector>

#include "audit/deviation.h"
#include "finding/survey.h"
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
};

// One rule: a name, what it looks at, and the deviations it finds.
struct Rule {
  std::string_view name;
  std::string_view looks_at;
  void (*look)(const Case&, std::vector<Deviation>&);
};

// Every rule there is. The table in the README is this one.
[[nodiscard]] const std::vector<Rule>& rules();

struct Audit {
  std::vector<Deviation> deviations;  // holds first, then checks, then notes; by rule within
  [[nodiscard]] bool ready() const;   // no hold is open
};

// Runs every rule over the job, in one pass each, and explains what it finds (explanation.h).
[[nodiscard]] Audit run(const Case& subject);

}  // namespace audit
