#include "progress/cover_times.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "record/address.h"

namespace progress {
namespace {

// Some fasteners of one joint came out, or were tightened.
struct Happened {
  const record::Stamp* stamp = nullptr;
  const std::vector<int>* positions = nullptr;
  bool is_out = false;
};

using ByJoint = std::unordered_map<std::string, std::vector<Happened>>;  // by folded code

// What happened to those joints alone, each in the order of time.
void gather(const record::Job& job, ByJoint& happened) {
  const auto add = [&](const auto& entry, bool is_out) {
    const auto found = happened.find(record::folded_code(entry.content.joint));
    if (found == happened.end()) return;
    found->second.push_back({&entry.stamp, &entry.content.positions, is_out});
  };
  for (const auto& entry : job.removals) add(entry, true);
  for (const auto& entry : job.tightenings) {
    if (record::is_work(entry.content)) add(entry, false);
  }
  for (auto& [code, of_joint] : happened) {
    std::ranges::sort(of_joint, [](const Happened& a, const Happened& b) {
      return record::is_earlier(*a.stamp, *b.stamp);
    });
  }
}

// The decision on the whole joint that it never came out; nothing where some of it did.
const record::Stamp* never_off(const finding::JointState& joint, const plan::Decided& decided) {
  const record::Stamp* said = nullptr;
  for (const auto& position : joint.positions) {
    said = decided.at(joint.joint->code, position.position).never_out;
    if (position.removal != nullptr || said == nullptr) return nullptr;
  }
  return said;
}

}  // namespace

std::string in_words(const CoverOn& on, std::string_view joint) {
  if (on.never_off) {
    return fmt::format(
        "{} covers {} and never came off, going by line {}: strike that and record it as out where "
        "it did",
        on.cover->joint->code, joint, on.closed->line);
  }
  return fmt::format("{} covers {} and was on then (line {}): record it as out where it was off",
                     on.cover->joint->code, joint, on.closed->line);
}

CoverTimes::CoverTimes(const record::Job& job, const finding::Survey& survey,
                       const plan::Decided& decided) {
  ByJoint happened;
  for (const auto& joint : survey.joints) {
    if (!joint.joint->covers.empty()) happened[record::folded_code(joint.joint->code)];
  }
  if (happened.empty()) return;
  gather(job, happened);
  for (const auto& joint : survey.joints) {
    if (joint.joint->covers.empty()) continue;
    const auto& code = joint.joint->code;
    std::vector<bool> counts;
    for (const auto& position : joint.positions) {
      counts.push_back(decided.at(code, position.position).left_alone == nullptr);
    }
    std::vector<bool> is_out(counts.size(), false);
    const auto all = std::ranges::count(counts, true);
    std::ptrdiff_t out = 0;
    Cover cover{&joint, {}, nullptr};
    for (const auto& [stamp, positions, comes_out] : happened[record::folded_code(code)]) {
      for (const int position : *positions) {
        const auto place = static_cast<std::size_t>(position) - 1;
        if (place >= counts.size() || !counts[place] || is_out[place] == comes_out) continue;
        is_out[place] = comes_out;
        out += comes_out ? 1 : -1;
      }
      const bool is_on = !cover.closed.empty() && cover.closed.back().to == nullptr;
      if (!is_on && !comes_out && out == 0) cover.closed.push_back({stamp, nullptr});
      if (is_on && comes_out && out == all) cover.closed.back().to = stamp;
    }
    cover.never_off = never_off(joint, decided);
    const bool is_untouched = cover.never_off == nullptr && all > 0 &&
                              std::ranges::none_of(joint.positions, [](const auto& position) {
                                return position.removal != nullptr;
                              });
    for (const auto& covered : joint.joint->covers) {
      if (is_untouched) untouched_[record::folded_code(covered)].push_back(&joint);
    }
    if (cover.closed.empty() && cover.never_off == nullptr) continue;
    auto& in = in_[&joint];
    for (const auto& position : joint.positions) {
      const auto place = static_cast<std::size_t>(position.position) - 1;
      if (cover.never_off != nullptr || (counts[place] && !is_out[place])) {
        in.push_back(position.position);
      }
    }
    for (const auto& covered : joint.joint->covers) {
      over_[record::folded_code(covered)].push_back(cover);
    }
  }
}

std::vector<const finding::JointState*> covers_to_open(const record::Job& job,
                                                       const finding::Survey& survey,
                                                       std::string_view joint) {
  std::vector<const finding::JointState*> covers;
  for (const auto& state : survey.joints) {
    const bool is_over = std::ranges::any_of(state.joint->covers, [&](const std::string& covered) {
      return record::same_code(covered, joint);
    });
    if (is_over) covers.push_back(&state);
  }
  if (covers.empty()) return covers;
  const plan::Decided decided(job, survey);
  std::erase_if(covers, [&](const finding::JointState* cover) {
    const auto& code = cover->joint->code;
    return std::ranges::none_of(cover->positions, [&](const finding::PositionState& position) {
      if (decided.at(code, position.position).left_alone != nullptr) return false;
      if (position.removal == nullptr) return true;
      return std::ranges::any_of(job.tightenings, [&](const auto& entry) {
        const auto& work = entry.content;
        return record::is_work(work) && record::same_code(work.joint, code) &&
               std::ranges::find(work.positions, position.position) != work.positions.end() &&
               record::is_later(entry.stamp, position.removal->stamp);
      });
    });
  });
  return covers;
}

std::string comes_off_first(const finding::JointState& cover, std::string_view joint) {
  std::vector<int> in;
  for (const auto& position : cover.positions) {
    if (position.removal == nullptr) in.push_back(position.position);
  }
  // Closed anew since it was off.
  if (in.empty()) {
    for (const auto& position : cover.positions) in.push_back(position.position);
  }
  const auto& code = cover.joint->code;
  return fmt::format("{} covers {} and comes off first; where it is off, record it: out {}", code,
                     joint, record::write_address(code, in));
}

// `is_before` tells what had been done by then.
template <class IsBefore>
std::vector<CoverOn> CoverTimes::on(std::string_view joint, IsBefore&& is_before) const {
  std::vector<CoverOn> on;
  const auto found = over_.find(record::folded_code(joint));
  if (found == over_.end()) return on;
  for (const auto& cover : found->second) {
    if (cover.never_off != nullptr) {
      on.push_back({cover.state, cover.never_off, true});
      continue;
    }
    for (const auto& [from, to] : cover.closed) {
      if (!is_before(*from)) break;
      if (to == nullptr || !is_before(*to)) on.push_back({cover.state, from});
    }
  }
  return on;
}

std::vector<CoverOn> CoverTimes::over(std::string_view joint, const record::Stamp& line) const {
  return on(joint, [&](const record::Stamp& other) { return record::is_earlier(other, line); });
}

std::vector<CoverOn> CoverTimes::over(std::string_view joint, record::Moment moment) const {
  return on(joint, [&](const record::Stamp& other) { return other.done_at <= moment; });
}

std::vector<const finding::JointState*> CoverTimes::never_off_over(std::string_view joint) const {
  const auto found = untouched_.find(record::folded_code(joint));
  return found == untouched_.end() ? std::vector<const finding::JointState*>{} : found->second;
}

std::string CoverTimes::command_to_open(std::string_view joint, record::Moment moment) const {
  const finding::JointState* top = nullptr;
  // No chain of covers is longer than there are joints that are covered.
  for (std::size_t i = 0; i <= over_.size(); ++i) {
    const auto on = over(top == nullptr ? joint : std::string_view(top->joint->code), moment);
    if (on.empty()) break;
    top = on.front().cover;
  }
  if (top == nullptr) return {};
  return "out " + record::write_address(top->joint->code, in_.at(top));
}

}  // namespace progress
