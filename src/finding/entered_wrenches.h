#pragma once

#include <string>
#include <string_view>
#include <unordered_set>

#include "record/job.h"

namespace finding {

// The wrenches that stand in the logbook: what was tightened with one that was struck was tightened
// with nothing that can be vouched for.
class EnteredWrenches {
 public:
  explicit EnteredWrenches(const record::Job& job);

  // Whether a wrench is named here and none of that name is entered (any more).
  [[nodiscard]] bool lacks(std::string_view name) const;

 private:
  std::unordered_set<std::string> names_;  // folded
};

}  // namespace finding
