#pragma once

#include <string_view>
#include <vector>

#include "audit/deviation.h"
#include "finding/survey.h"

namespace audit {

// What the rules look at.
struct Case {
  const record::Job& job;
  const finding::Survey& survey;
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

// Runs every rule over the job, in one pass each.
[[nodiscard]] Audit run(const Case& subject);

}  // namespace audit
