#pragma once

#include <string_view>
#include <unordered_map>
#include <vector>

#include "progress/progress.h"

namespace progress {

using Tightened = record::Entry<record::Tightening>;

// What is on record of one joint's reassembly, and its part of the plan.
struct JointWork {
  const finding::JointState* state = nullptr;
  std::vector<const plan::PlannedPass*> passes;  // over both stages, in the order of the plan
  // By position - 1: what was done since it last came out, second checks included, in the order
  // done.
  std::vector<std::vector<const Tightened*>> done;
  // Where something was done that is no step of the plan any more (OtherWork); rising, each once.
  std::vector<int> other_work;

  [[nodiscard]] const std::vector<const Tightened*>& done_at(int position) const {
    return done[static_cast<std::size_t>(position) - 1];
  }

  // Somebody tightened it; a look by a second person and what was left out do not count.
  [[nodiscard]] bool is_back(int position) const;

  // The last that was set on a wrench at this position, second checks apart: what it stands at.
  [[nodiscard]] const Tightened* last_set(int position) const;
};

// Every joint on whose reassembly something is on record, and nothing of the others, so that what
// is still in parts costs nothing and is not spoken of. It points into job, survey and progress.
class WorkDone {
 public:
  // The plan that is carried out has those joints at least.
  WorkDone(const record::Job& job, const finding::Survey& survey, const Progress& progress);

  // In the order of the plan.
  [[nodiscard]] const std::vector<JointWork>& joints() const { return joints_; }

  // Nothing for a joint of which no reassembly is on record.
  [[nodiscard]] const JointWork* joint(std::string_view code) const;

  [[nodiscard]] const Progress& progress() const { return progress_; }

 private:
  [[nodiscard]] JointWork* find(std::string_view code);

  const Progress& progress_;
  std::vector<JointWork> joints_;
  std::unordered_map<std::string, std::size_t> by_code_;  // folded
};

}  // namespace progress
