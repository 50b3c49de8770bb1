#include "finding/own_removal.h"

#include <algorithm>

namespace finding {
namespace {

template <class Events>
auto first_after(const Events& events, const record::Stamp& test) {
  return std::ranges::partition_point(
      events, [&](const auto& event) { return !record::is_later(*event.stamp, test); });
}

}  // namespace

OwnRemovals::OwnRemovals(const record::Job& job, const JointIndex& joints) {
  for (const auto& entry : job.removals) {
    const auto joint = joints.place_of(entry.content.joint);
    if (!joint) continue;
    for (const int position : entry.content.positions) {
      events_[*joint][position].push_back({&entry.stamp, &entry});
    }
  }
  for (const auto& entry : job.tightenings) {
    if (!record::is_work(entry.content)) continue;
    const auto joint = joints.place_of(entry.content.joint);
    if (!joint) continue;
    for (const int position : entry.content.positions) {
      events_[*joint][position].push_back({&entry.stamp, nullptr});
    }
  }
  for (auto& [joint, positions] : events_) {
    for (auto& [position, events] : positions) {
      std::ranges::sort(events, [](const Event& a, const Event& b) {
        return record::is_earlier(*a.stamp, *b.stamp);
      });
    }
  }
}

const OwnRemovals::Events* OwnRemovals::events_at(std::size_t joint, int position) const {
  const auto of_joint = events_.find(joint);
  if (of_joint == events_.end()) return nullptr;
  const auto of_position = of_joint->second.find(position);
  return of_position == of_joint->second.end() ? nullptr : &of_position->second;
}

const record::Entry<record::Removal>* OwnRemovals::removal_for(std::size_t joint, int position,
                                                               const record::Stamp& test) const {
  const auto* events = events_at(joint, position);
  if (events == nullptr) return nullptr;
  const auto after = first_after(*events, test);
  if (after != events->begin() && std::prev(after)->removal != nullptr) {
    return std::prev(after)->removal;
  }
  return after == events->end() ? nullptr : after->removal;
}

std::vector<const record::Entry<record::Removal>*> OwnRemovals::last_outs(std::size_t joint,
                                                                          int position) const {
  std::vector<const record::Entry<record::Removal>*> outs;
  const auto* events = events_at(joint, position);
  if (events == nullptr) return outs;
  const auto is_out = [](const Event& event) { return event.removal != nullptr; };
  const auto last = std::find_if(events->rbegin(), events->rend(), is_out);
  const auto before = std::find_if_not(last, events->rend(), is_out);
  for (auto out = last; out != before; ++out) outs.push_back(out->removal);
  std::ranges::reverse(outs);
  return outs;
}

bool OwnRemovals::is_past(std::size_t joint, int position, const record::Stamp& test) const {
  const auto* events = events_at(joint, position);
  if (events == nullptr) return false;
  const auto tightened = std::find_if(first_after(*events, test), events->end(),
                                      [](const auto& event) { return event.removal == nullptr; });
  return std::any_of(tightened, events->end(),
                     [](const auto& event) { return event.removal != nullptr; });
}

}  // namespace finding
