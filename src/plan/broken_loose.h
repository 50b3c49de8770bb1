#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "record/job.h"

namespace plan {

// A found-torque test, or a pull of one, of a fastener that had been tightened since it last came
// out. A test breaks it loose: what was made of it before stands no more.
struct TestedAgain {
  const record::Stamp* test = nullptr;       // the last such; none where there is none
  const record::Stamp* tightened = nullptr;  // the last work before it
  bool is_out_since = false;                 // the fastener has come out after it
};

// By position.
class BrokenLoose {
 public:
  // Points into `job`.
  explicit BrokenLoose(const record::Job& job);

  [[nodiscard]] const TestedAgain& at(std::string_view joint, int position) const;

 private:
  std::map<std::pair<std::string, int>, TestedAgain> places_;  // by folded code
};

}  // namespace plan
