#include "finding/own_removal.h"

#include <algorithm>

namespace finding {

OwnRemovals::OwnRemovals(const record::Job& job, const JointIndex& joints) {
  for (const auto& entry : job.removals) {
    const auto joint = joints.place_of(entry.content.joint);
    if (!joint) continue;
    for (const int position : entry.content.positions) {
      events_[*joint][position].push_back({&entry.stamp, &entry});
    }
  }
  for (const auto& entry : job.tightenings) {
    if (record::is_skipped(entry.content) || entry.content.second_check) continue;
    const auto joint = joints.place_of(entry.content.joint);
    if (!joint) continue;
    for (const int position : entry.content.positions) {
      events_[*joint][position].push_back({&entry.stamp, nullptr});
    }
  }
  for (auto& [joint, positions] : events_) {
    for (auto& [position, events] : positions) {
      std::ranges::sort(events, [](const Event& a, const Event& b) {
        return record::is_later(*b.stamp, *a.stamp);
      });
    }
  }
}

const record::Entry<record::Removal>* OwnRemovals::removal_for(std::size_t joint, int position,
                                                               const record::Stamp& test) const {
  const auto of_joint = events_.find(joint);
  if (of_joint == events_.end()) return nullptr;
  const auto of_position = of_joint->second.find(position);
  if (of_position == of_joint->second.end()) return nullptr;
  const auto& events = of_position->second;
  const auto after = std::ranges::partition_point(
      events, [&](const Event& event) { return !record::is_later(*event.stamp, test); });
  if (after != events.begin() && std::prev(after)->removal != nullptr) {
    return std::prev(after)->removal;
  }
  return after == events.end() ? nullptr : after->removal;
}

}  // namespace finding
