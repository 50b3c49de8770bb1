#pragma once

#include <cstddef>
#include <unordered_map>
#include <vector>

#include "finding/joint_index.h"
#include "record/job.h"

namespace finding {

// Tells to which teardown a found-torque test belongs: a fastener can come out, go back and come
// out again in one logbook, and a test speaks of its own time alone.
class OwnRemovals {
 public:
  // Points into `job`.
  OwnRemovals(const record::Job& job, const JointIndex& joints);

  // The removal of this position that goes with a test at that time: the last one before it, else
  // the first after it (a bolt may be tested and taken out afterwards); in both cases only where
  // nothing was tightened in between. Nothing where there is none such: then the fastener was in
  // its hole, tightened again or never out.
  [[nodiscard]] const record::Entry<record::Removal>* removal_for(std::size_t joint, int position,
                                                                  const record::Stamp& test) const;

  // The removals with which it last came out, in the order done: one, but where several lines
  // record it with nothing tightened between.
  [[nodiscard]] std::vector<const record::Entry<record::Removal>*> last_outs(std::size_t joint,
                                                                             int position) const;

  // The fastener was tightened after the test and has come out again since.
  [[nodiscard]] bool is_past(std::size_t joint, int position, const record::Stamp& test) const;

 private:
  // It came out, or (without a removal) it was tightened.
  struct Event {
    const record::Stamp* stamp = nullptr;
    const record::Entry<record::Removal>* removal = nullptr;
  };
  using Events = std::vector<Event>;  // by time
  // Those of one position; nothing where there is none.
  [[nodiscard]] const Events* events_at(std::size_t joint, int position) const;

  // By joint, then position.
  std::unordered_map<std::size_t, std::unordered_map<int, Events>> events_;
};

}  // namespace finding
