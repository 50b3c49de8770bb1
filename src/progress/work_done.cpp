#include "progress/work_done.h"

#include <algorithm>
#include <unordered_set>

#include "progress/plan_under_way.h"
#include "record/address.h"

namespace progress {

bool JointWork::is_back(int position) const {
  return std::ranges::any_of(
      done_at(position), [](const Tightened* entry) { return record::is_work(entry->content); });
}

const Tightened* JointWork::last_set(int position) const {
  const auto& entries = done_at(position);
  const auto found = std::find_if(entries.rbegin(), entries.rend(), [](const Tightened* entry) {
    return record::is_work(entry->content) && entry->content.setting;
  });
  return found == entries.rend() ? nullptr : *found;
}

WorkDone::WorkDone(const record::Job& job, const finding::Survey& survey, const Progress& progress)
    : progress_(progress) {
  const auto worked_on = joints_worked_on(job, survey);
  const std::unordered_set<const finding::JointState*> wanted(worked_on.begin(), worked_on.end());
  for (const auto& planned : progress.plan().joints) {
    if (!wanted.contains(planned.state)) continue;
    // A joint whose final value waits stands in the plan twice.
    const auto [place, fresh] =
        by_code_.try_emplace(record::folded_code(planned.state->joint->code), joints_.size());
    if (fresh) joints_.emplace_back();
    auto& work = joints_[place->second];
    work.state = planned.state;
    work.done.resize(planned.state->positions.size());
    for (const auto& pass : planned.passes) work.passes.push_back(&pass);
  }
  for (const auto& entry : job.tightenings) {
    auto* work = find(entry.content.joint);
    if (work == nullptr) continue;
    for (const int position : entry.content.positions) {
      const auto place = static_cast<std::size_t>(position) - 1;
      if (place >= work->done.size()) continue;
      const auto* came_out = progress_.came_out(entry.content.joint, position);
      if (came_out != nullptr && !record::is_earlier(*came_out, entry.stamp)) continue;
      work->done[place].push_back(&entry);
    }
  }
  for (const auto& other : progress.other_work()) {
    auto* work = find(other.entry->content.joint);
    if (work != nullptr) work->other_work.push_back(other.position);
  }
  for (auto& work : joints_) {
    for (auto& done : work.done) {
      std::ranges::sort(done, [](const auto* a, const auto* b) {
        return record::is_earlier(a->stamp, b->stamp);
      });
    }
    std::ranges::sort(work.other_work);
    work.other_work.erase(std::unique(work.other_work.begin(), work.other_work.end()),
                          work.other_work.end());
  }
}

JointWork* WorkDone::find(std::string_view code) {
  const auto found = by_code_.find(record::folded_code(code));
  return found == by_code_.end() ? nullptr : &joints_[found->second];
}

const JointWork* WorkDone::joint(std::string_view code) const {
  const auto found = by_code_.find(record::folded_code(code));
  return found == by_code_.end() ? nullptr : &joints_[found->second];
}

}  // namespace progress
