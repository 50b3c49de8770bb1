#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/joint_index.h"
#include "progress/hold_point_state.h"
#include "record/address.h"

namespace audit {
namespace {

using progress::HoldPointState;

// A hold point over time: from when it stands, and when it opened and closed.
struct Gate {
  const record::HoldPoint* point = nullptr;
  const record::Stamp* entered = nullptr;
  std::vector<std::pair<record::Moment, bool>> turns;  // rising; open from then on, or not

  // Work at the very moment of its entry is let pass: times are often given to the minute.
  [[nodiscard]] bool is_shut_at(record::Moment moment) const {
    if (moment <= entered->done_at) return false;
    const auto next =
        std::ranges::upper_bound(turns, moment, {}, &std::pair<record::Moment, bool>::first);
    return next == turns.begin() || !std::prev(next)->second;
  }
};

std::vector<Gate> gates_of(const record::Job& job) {
  std::vector<Gate> gates;
  std::unordered_map<std::string, std::size_t> by_code;
  for (const auto& entry : job.hold_points) {
    const auto [found, fresh] =
        by_code.try_emplace(record::folded_code(entry.content.code), gates.size());
    if (fresh) gates.emplace_back();
    gates[found->second].point = &entry.content;
    gates[found->second].entered = &entry.stamp;
  }
  std::vector<HoldPointState> states(gates.size());
  for (std::size_t i = 0; i < gates.size(); ++i) states[i].point = gates[i].point;

  std::vector<const record::Entry<record::HoldPointStep>*> steps;
  for (const auto& step : job.hold_point_steps) steps.push_back(&step);
  std::ranges::stable_sort(steps, {}, [](const auto* step) { return step->stamp.done_at; });
  for (const auto* step : steps) {
    const auto found = by_code.find(record::folded_code(step->content.code));
    if (found == by_code.end()) continue;
    Gate& gate = gates[found->second];
    if (step->stamp.id < gate.entered->id) continue;
    HoldPointState& state = states[found->second];
    progress::take(state, *step);
    gate.turns.emplace_back(step->stamp.done_at, state.stands == HoldPointState::Stands::Passed);
  }
  return gates;
}

// What was done to one joint while one gate was shut.
struct Passed {
  std::set<int> positions;
  const record::Stamp* first = nullptr;
};

class PassedOver {
 public:
  PassedOver(const Case& subject, const std::vector<Gate>& gates)
      : subject_(subject), gates_(gates), index_(subject.survey) {}

  template <class Content>
  void look_at(const record::Entry<Content>& entry) {
    const auto joint = index_.place_of(entry.content.joint);
    if (!joint) return;
    for (const std::size_t number : before(*joint)) {
      if (!gates_[number].is_shut_at(entry.stamp.done_at)) continue;
      auto& passed = passed_[{*joint, number}];
      passed.positions.insert(entry.content.positions.begin(), entry.content.positions.end());
      if (passed.first == nullptr) passed.first = &entry.stamp;
    }
  }

  [[nodiscard]] const std::map<std::pair<std::size_t, std::size_t>, Passed>& all() const {
    return passed_;
  }

 private:
  // The gates before this joint, looked up once.
  const std::vector<std::size_t>& before(std::size_t joint) {
    const auto [entry, fresh] = before_.try_emplace(joint);
    if (fresh) {
      for (std::size_t i = 0; i < gates_.size(); ++i) {
        if (progress::guards(*gates_[i].point, subject_.survey.joints[joint].joint->code)) {
          entry->second.push_back(i);
        }
      }
    }
    return entry->second;
  }

  const Case& subject_;
  const std::vector<Gate>& gates_;
  finding::JointIndex index_;
  std::unordered_map<std::size_t, std::vector<std::size_t>> before_;
  std::map<std::pair<std::size_t, std::size_t>, Passed> passed_;  // by joint and gate
};

void hold_point(const Case& subject, std::vector<Deviation>& deviations) {
  const auto gates = gates_of(subject.job);
  if (gates.empty()) return;
  PassedOver passed_over(subject, gates);
  for (const auto& entry : subject.job.removals) passed_over.look_at(entry);
  for (const auto& entry : subject.job.tightenings) {
    if (!record::is_skipped(entry.content)) passed_over.look_at(entry);
  }
  for (const auto& [where, passed] : passed_over.all()) {
    const auto& joint = subject.survey.joints[where.first];
    const auto& point = *gates[where.second].point;
    deviations.push_back(flag_part(
        kHoldPoint, Level::Hold, joint, point.code,
        fmt::format("{} was worked on behind hold point {} ({}), which was not passed at that time "
                    "(line {})",
                    record::write_positions({passed.positions.begin(), passed.positions.end()}),
                    point.code, point.what, passed.first->line),
        "stop, make it safe and have it passed by a named person; if it had been, strike the line "
        "and enter it with its right time"));
  }
}

}  // namespace

constinit const Rule kHoldPoint{"hold point",
                                "work behind a hold point that was not passed at that time",
                                hold_point, RestsOn{.removals = true, .tightenings = true}};

}  // namespace audit
