#include "finding/survey.h"

#include <algorithm>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>

#include "fastener/wrench_reading.h"
#include "finding/entered_wrenches.h"
#include "finding/joint_index.h"
#include "finding/outlier.h"
#include "finding/own_removal.h"
#include "record/address.h"
#include "record/concerns.h"

namespace finding {
namespace {

// Looks joints up by code while the entries are spread over them.
class Spread {
 public:
  Spread(Survey& survey, const JointIndex& index) : survey_(survey), index_(index) {}

  JointState* joint(std::string_view code) {
    const auto place = index_.place_of(code);
    return place ? &survey_.joints[*place] : nullptr;
  }

  PositionState* position(std::string_view code, int number) {
    JointState* state = joint(code);
    if (state == nullptr || number > state->joint->count) return nullptr;
    return &state->positions[static_cast<std::size_t>(number) - 1];
  }

 private:
  Survey& survey_;
  const JointIndex& index_;
};

// The cautions that another entry of a joint has and the last one, made apart from it, has not.
void add_cautions_of_others(const record::Job& job,
                            const std::unordered_map<std::string, std::size_t>& places,
                            Survey& survey) {
  for (const auto& entry : job.joints) {
    auto& state = survey.joints[places.at(record::folded_code(entry.content.code))];
    if (!job.apart.are_apart(entry.stamp, state.entry->stamp)) continue;
    auto cautious = *state.joint;
    cautious.critical |= entry.content.critical;
    cautious.one_time |= entry.content.one_time;
    cautious.live_load |= entry.content.live_load;
    if (cautious == *state.joint) continue;
    survey.cautious_joints.push_back(std::make_shared<const record::Joint>(std::move(cautious)));
    state.joint = survey.cautious_joints.back().get();
  }
}

// The latest entry of each code, where its first entry stands.
void collect_joints(const record::Job& job, Survey& survey) {
  std::unordered_map<std::string, std::size_t> place;
  for (const auto& entry : job.joints) {
    const auto [found, fresh] =
        place.try_emplace(record::folded_code(entry.content.code), survey.joints.size());
    if (fresh) survey.joints.emplace_back();
    JointState& state = survey.joints[found->second];
    state.joint = &entry.content;
    state.entry = &entry;
    state.kept = job.apart.kept(entry.stamp.id);
  }
  if (!job.apart.is_empty()) add_cautions_of_others(job, place, survey);
  for (auto& state : survey.joints) {
    state.positions.resize(static_cast<std::size_t>(state.joint->count));
    for (int i = 0; i < state.joint->count; ++i) {
      state.positions[static_cast<std::size_t>(i)].position = i + 1;
    }
  }
}

// Threadlocker and an angle step make a torque that cannot be held against the specified one; so
// does a finding that is no evidence.
bool is_comparable(const PositionState& position, const Finding& finding) {
  const auto* specified = position.specified;
  return specified != nullptr && finding.window && finding.graded.grade != Grade::X &&
         specified->condition != fastener::Condition::Threadlocker;
}

std::optional<double> ratio_of(const PositionState& position, const Finding& finding) {
  const auto& window = position.window;
  if (!window || !window->nominal || !finding.torque.best) return std::nullopt;
  auto clamping = *finding.torque.best;
  if (const auto& prevailing = finding.entry->content.prevailing) {
    clamping = clamping - prevailing->torque();
  }
  // A line of an older logbook may hold a running torque above what was found.
  if (clamping <= quantity::Torque::newton_metres(0)) return std::nullopt;
  return clamping / *window->nominal;
}

Finding evaluate(const record::Job& job, const PositionState& position,
                 const record::Entry<record::Measured>& entry, const record::Wrench* wrench,
                 const record::Entry<record::Removal>* removal, record::Day day, TestedBolt bolt) {
  Finding finding;
  finding.entry = &entry;
  finding.wrench = wrench;
  finding.removal = removal;
  if (position.specified != nullptr) bolt.condition = position.specified->condition;
  // Without its wrench the deviation that the standard permits stands in; its grade is X then.
  finding.torque = found_torque(entry.content, wrench == nullptr ? record::Wrench{} : *wrench,
                                job.start.method_error, bolt);
  Circumstances circumstances{entry.content, finding.torque, wrench,        day,
                              std::nullopt,  true,           bolt.condition};
  if (removal != nullptr) {
    circumstances.broke = removal->content.broke;
    circumstances.marked = removal->content.marked;
  }
  finding.graded = grade(circumstances);
  if (position.window) finding.window = at_wrench(*position.window, entry.content.prevailing);
  if (is_comparable(position, finding)) {
    finding.verdict = judge(finding.torque, *finding.window);
    finding.tightened_verdict = judge_tightened(finding.torque, *finding.window);
  }
  finding.ratio = ratio_of(position, finding);
  return finding;
}

// How much a finding says against going on: the more, the higher.
int gravity_of(const Finding& finding) {
  switch (finding.verdict) {
    case Verdict::Within:
      return 0;
    case Verdict::NotComparable:
      return 1;
    case Verdict::Undecided:
      return 2;
    case Verdict::Low:
    case Verdict::High:
      break;
  }
  return is_outside_both(finding) ? 4 : 3;
}

// Which of the findings were made apart and come to different verdicts, and the worst of them and
// of what was found since. They are in the order of their time.
void find_disputed(const record::Apart& apart, PositionState& position) {
  const auto& all = position.findings;
  if (apart.is_empty() || all.size() < 2 || all.back().is_past) return;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool is_disputed = std::ranges::any_of(all, [&](const Finding& other) {
      return !all[i].is_past && !other.is_past && other.verdict != all[i].verdict &&
             apart.are_apart(other.entry->stamp, all[i].entry->stamp);
    });
    if (is_disputed) position.disputed_findings.push_back(i);
  }
  position.worst_finding = all.size() - 1;
  for (const auto i : position.disputed_findings) {
    if (gravity_of(all[i]) > gravity_of(all[position.worst_finding])) position.worst_finding = i;
  }
}

// By the time of the test, so that an older one entered anew does not pass for the latest.
void sort_findings(const record::Apart& apart, Survey& survey) {
  for (auto& joint : survey.joints) {
    for (auto& position : joint.positions) {
      std::ranges::stable_sort(position.findings, [](const Finding& a, const Finding& b) {
        return record::is_earlier(a.entry->stamp, b.entry->stamp);
      });
      find_disputed(apart, position);
    }
  }
}

// What the lines come to that record the same coming out, some of them in copies that were apart.
void read_outs_together(const record::Apart& apart, const JointState& joint,
                        PositionState& position, Outs outs, Survey& survey) {
  if (!are_of_several_copies(apart, outs)) return;
  position.outs = std::move(outs);
  auto together = read_together(*joint.joint, position.outs);
  position.is_out_disputed = together != nullptr;
  if (!position.is_out_disputed) return;
  position.removal = together.get();
  survey.read_together.push_back(std::move(together));
}

// What of a line is about a joint that is not there, or a position that it does not have.
template <record::AboutFasteners Kind>
void add_strays_without_place(const record::Entry<Kind>& entry, Spread& spread, Survey& survey) {
  const auto& joint = entry.content.joint;
  const auto& positions = record::positions_named(entry.content);
  if (positions.empty() && spread.joint(joint) == nullptr) {
    survey.strays.push_back({&entry.stamp, joint});
  }
  for (const int number : positions) {
    if (spread.position(joint, number) != nullptr) continue;
    survey.strays.push_back({&entry.stamp, joint, number});
  }
}

// A photograph may be of the machine; one of a deviation is found with that, wherever it stands.
bool has_place(const record::Photograph& photograph) {
  return !photograph.joint.empty() && photograph.deviation.empty();
}
template <class Kind>
bool has_place(const Kind&) {
  return true;
}

void add_strays_without_place(const record::Job& job, Spread& spread, Survey& survey) {
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (record::AboutFasteners<Kind>) {
      for (const auto& entry : record::entries_of<Kind>(job)) {
        if (has_place(entry.content)) add_strays_without_place(entry, spread, survey);
      }
    }
  });
}

void add_tightenings_without_wrench(const record::Job& job, Spread& spread, Survey& survey) {
  const EnteredWrenches wrenches(job);
  for (const auto& entry : job.tightenings) {
    const auto& work = entry.content;
    if (!wrenches.lacks(work.wrench)) continue;
    for (const int number : work.positions) {
      if (spread.position(work.joint, number) == nullptr) continue;
      survey.strays.push_back({&entry.stamp, work.joint, number, work.wrench});
    }
  }
}

// Lines of this kind about a code that none of these has.
template <class Line, class Known>
void add_strays_of(const std::vector<record::Entry<Line>>& lines,
                   const std::vector<record::Entry<Known>>& known, std::string Stray::*code,
                   Survey& survey) {
  for (const auto& entry : lines) {
    const bool is_there = std::ranges::any_of(known, [&](const auto& one) {
      return record::same_code(one.content.code, entry.content.code);
    });
    if (is_there) continue;
    survey.strays.push_back({&entry.stamp});
    survey.strays.back().*code = entry.content.code;
  }
}

// Gives every position what holds for it: its own latest specification before the joint's.
void settle_specifications(JointState& joint, quantity::Percent default_tolerance) {
  const auto window_of = [&](const record::Specified* specified) {
    std::optional<record::ToleranceWindow> window;
    if (specified == nullptr) return window;
    if (const auto target = record::final_torque(specified->procedure)) {
      window = record::window_of(*target, default_tolerance);
    }
    return window;
  };
  const auto by_time = [](auto& specifications) {
    std::ranges::stable_sort(specifications, [](const auto* a, const auto* b) {
      return record::is_earlier(a->stamp, b->stamp);
    });
  };
  by_time(joint.specifications);
  for (auto& position : joint.positions) by_time(position.own_specifications);
  const auto* of_joint =
      joint.specifications.empty() ? nullptr : &joint.specifications.back()->content;
  const auto window_of_joint = window_of(of_joint);
  for (auto& position : joint.positions) {
    const auto& own = position.own_specifications;
    position.specified = own.empty() ? of_joint : &own.back()->content;
    position.window = own.empty() ? window_of_joint : window_of(position.specified);
  }
}

// The unit in which a joint's torques are told.
quantity::TorqueUnit unit_of(const JointState& joint, quantity::TorqueUnit of_logbook) {
  const Finding* last = nullptr;
  for (const auto& position : joint.positions) {
    const auto target = position.specified == nullptr
                            ? std::nullopt
                            : record::final_torque(position.specified->procedure);
    if (target) return target->unit;
    const auto* finding = position.finding();
    if (finding != nullptr &&
        (last == nullptr || record::is_later(finding->entry->stamp, last->entry->stamp))) {
      last = finding;
    }
  }
  return last == nullptr ? of_logbook : last->entry->content.unit;
}

}  // namespace

record::ToleranceWindow at_wrench(record::ToleranceWindow window,
                                  const std::optional<quantity::StatedTorque>& prevailing) {
  if (!prevailing) return window;
  for (auto* limit : {&window.low, &window.nominal, &window.high}) {
    if (*limit) *limit = fastener::with_prevailing_torque(**limit, prevailing->torque());
  }
  return window;
}

Survey survey(const record::Job& job) {
  Survey result;
  collect_joints(job, result);
  const JointIndex index(result);
  Spread spread(result, index);

  for (const auto& entry : job.specifications) {
    auto* joint = spread.joint(entry.content.joint);
    if (joint == nullptr) continue;
    if (entry.content.positions.empty()) joint->specifications.push_back(&entry);
    for (const int number : entry.content.positions) {
      if (auto* position = spread.position(entry.content.joint, number)) {
        position->own_specifications.push_back(&entry);
      }
    }
  }
  for (auto& joint : result.joints) settle_specifications(joint, job.start.default_tolerance);
  std::set<std::pair<std::size_t, int>> out_again;  // place of the joint, position
  for (const auto& entry : job.removals) {
    for (const int number : entry.content.positions) {
      if (auto* position = spread.position(entry.content.joint, number)) {
        if (position->removal != nullptr) {
          out_again.emplace(*index.place_of(entry.content.joint), number);
        }
        if (position->removal == nullptr ||
            record::is_later(entry.stamp, position->removal->stamp)) {
          position->removal = &entry;
        }
      }
    }
  }
  const OwnRemovals own_removals(job, index);
  for (const auto& [place, number] : out_again) {
    auto& joint = result.joints[place];
    read_outs_together(job.apart, joint, joint.positions[static_cast<std::size_t>(number) - 1],
                       own_removals.last_outs(place, number), result);
  }
  std::vector<std::optional<TestedBolt>> bolts(result.joints.size());  // of those with a finding
  for (const auto& entry : job.findings) {
    const auto& measured = entry.content;
    const auto day = record::local_day(entry.stamp.done_at);
    auto* position = spread.position(measured.joint, measured.position);
    const auto* wrench = record::wrench_on(job, measured.wrench, day);
    if (position == nullptr) continue;
    if (wrench == nullptr) {
      result.strays.push_back({&entry.stamp, measured.joint, measured.position, measured.wrench});
    }
    const auto joint = *index.place_of(measured.joint);
    const auto* removal = own_removals.removal_for(joint, measured.position, entry.stamp);
    if (std::ranges::find(position->outs, removal) != position->outs.end()) {
      removal = position->removal;
    }
    if (!bolts[joint]) {
      bolts[joint] = tested_bolt(*result.joints[joint].joint, fastener::Condition::AsReceived);
    }
    position->findings.push_back(
        evaluate(job, *position, entry, wrench, removal, day, *bolts[joint]));
    position->findings.back().is_past = own_removals.is_past(joint, measured.position, entry.stamp);
  }
  add_tightenings_without_wrench(job, spread, result);
  add_strays_without_place(job, spread, result);
  add_strays_of(job.hold_point_steps, job.hold_points, &Stray::hold_point, result);
  add_strays_of(job.item_returns, job.items, &Stray::item, result);
  sort_findings(job.apart, result);
  for (auto& joint : result.joints) joint.unit = unit_of(joint, job.start.unit);
  return result;
}

bool is_outside_both(const Finding& finding) {
  return finding.verdict == finding.tightened_verdict &&
         (finding.verdict == Verdict::Low || finding.verdict == Verdict::High);
}

std::optional<quantity::Torque> provisional_torque(const JointState& joint) {
  std::vector<quantity::Torque> trusted;
  std::vector<const FoundTorque*> bounds;
  for (const auto& position : joint.positions) {
    const auto* finding = position.specified == nullptr ? position.finding() : nullptr;
    if (finding == nullptr || finding->graded.grade == Grade::X) continue;
    if (!finding->torque.best) bounds.push_back(&finding->torque);
    if (finding->torque.best && finding->graded.grade <= Grade::B) {
      trusted.push_back(*finding->torque.best);
    }
  }
  if (trusted.empty()) return std::nullopt;
  std::ranges::sort(trusted);
  const auto middle = trusted.size() / 2;
  const auto median =
      trusted.size() % 2 == 1 ? trusted[middle] : (trusted[middle - 1] + trusted[middle]) / 2.0;
  // Of two that lie far apart nobody knows which one is right, and the middle was never found.
  const auto least = median * (1.0 - kShareLimit);
  const auto most = median * (1.0 + kShareLimit);
  // A bound tells no torque; that it cannot be this one it does tell.
  const bool agree =
      trusted.front() >= least && trusted.back() <= most &&
      std::ranges::none_of(bounds, [&](const FoundTorque* bound) {
        return (bound->high && *bound->high < least) || (bound->low && *bound->low > most);
      });
  return trusted.size() < kFewestForScore && !agree ? std::nullopt : std::optional(median);
}

const JointState* joint_in(const Survey& survey, std::string_view code) {
  const auto found = std::ranges::find_if(survey.joints, [&](const JointState& state) {
    return record::same_code(state.joint->code, code);
  });
  return found == survey.joints.end() ? nullptr : &*found;
}

}  // namespace finding
