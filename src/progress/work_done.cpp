#include "progress/work_done.h"

#include <algorithm>
#include <unordered_set>

#include "record/address.h"

namespace progress {
namespace {

std::vector<const finding::JointState*> joints_worked_on(const record::Job& job,
                                                         const finding::Survey& survey) {
  std::unordered_set<std::string> codes;
  for (const auto& entry : job.tightenings) codes.insert(record::folded_code(entry.content.joint));
  for (const auto& entry : job.stripes) codes.insert(record::folded_code(entry.content.joint));
  std::vector<const finding::JointState*> joints;
  for (const auto& state : survey.joints) {
    if (codes.contains(record::folded_code(state.joint->code))) joints.push_back(&state);
  }
  return joints;
}

}  // namespace

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

WorkDone::WorkDone(const record::Job& job, const finding::Survey& survey, record::Day day)
    : plan_(plan::reassembly_plan(job, survey, joints_worked_on(job, survey), day)),
      progress_(job, plan_) {
  for (const auto& planned : plan_.joints) {
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
    const auto found = by_code_.find(record::folded_code(entry.content.joint));
    if (found == by_code_.end()) continue;
    auto& work = joints_[found->second];
    for (const int position : entry.content.positions) {
      const auto place = static_cast<std::size_t>(position) - 1;
      if (place >= work.done.size()) continue;
      const auto* came_out = progress_.came_out(entry.content.joint, position);
      if (came_out != nullptr && !record::is_earlier(*came_out, entry.stamp)) continue;
      work.done[place].push_back(&entry);
    }
  }
  for (auto& work : joints_) {
    for (auto& done : work.done) {
      std::ranges::sort(done, [](const auto* a, const auto* b) {
        return record::is_earlier(a->stamp, b->stamp);
      });
    }
  }
}

const JointWork* WorkDone::joint(std::string_view code) const {
  const auto found = by_code_.find(record::folded_code(code));
  return found == by_code_.end() ? nullptr : &joints_[found->second];
}

}  // namespace progress
