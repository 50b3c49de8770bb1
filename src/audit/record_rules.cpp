#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/joint_index.h"
#include "record/address.h"

namespace audit {
namespace {

constexpr std::size_t kTypedTail = 8;

Statement what_is_missing(const finding::Stray& stray, const finding::JointIndex& joints) {
  if (!stray.wrench.empty()) {
    return says("wrench {}, with which it was tested, is not in the logbook any more",
                as::name(stray.wrench));
  }
  const auto* joint = joints.find(stray.joint);
  if (joint == nullptr) return as::wording("that joint is not in the logbook any more");
  return says("{} has positions 1 to {} only", as::name(joint->joint->code),
              as::count(joint->joint->count));
}

std::string where_it_belongs(const finding::Stray& stray, const finding::JointIndex& joints) {
  if (!stray.wrench.empty()) {
    return fmt::format(
        "enter it again as it was: wrench {} ...; or strike the line: strike {} --why ...",
        stray.wrench, stray.stamp->line);
  }
  const auto* joint = joints.find(stray.joint);
  if (joint == nullptr) {
    return fmt::format("enter it again: joint {} ...; or strike the line: strike {} --why ...",
                       stray.joint, stray.stamp->line);
  }
  return fmt::format(
      "if the joint has more positions, enter it again with their number: joint {} --replace {} "
      "--count ...; if the line names the wrong one, enter that line again with --replace {}",
      joint->joint->code, joint->entry->stamp.line, stray.stamp->line);
}

void stray_entry(const Case& subject, Deviations& deviations) {
  const auto& joints = subject.lookups->joints;
  for (const auto& stray : subject.survey.strays) {
    const std::string address =
        stray.position > 0 ? record::write_address(stray.joint, stray.position) : stray.joint;
    auto deviation = flag_job(kStrayEntry, Level::Hold,
                              says("line {} speaks of {}, but {}", as::line(*stray.stamp),
                                   as::name(address), what_is_missing(stray, joints)),
                              where_it_belongs(stray, joints));
    // The tail of the line's own id, so that it is short enough to type and the same in every copy.
    deviation.id = fmt::format("stray-entry:{}:{}", address,
                               stray.stamp->id.substr(stray.stamp->id.size() - kTypedTail));
    deviation.joint = stray.joint;
    deviation.kind = stray.wrench;
    auto& part = deviation.parts.front();
    part.id = deviation.id;
    if (stray.position > 0) {
      deviation.position = stray.position;
      deviation.positions = {stray.position};
      part.position = stray.position;
    }
    deviations.push_back(std::move(deviation));
  }
}

// One line that is gone leaves many behind: what is missing is told once.
std::string strays_together(const Case& subject, const Deviation& together) {
  const auto& joints = subject.lookups->joints;
  const auto* joint = joints.find(together.joint);
  const auto missing =
      !together.kind.empty()
          ? fmt::format("wrench {}, with which they were tested, is not in the logbook any more",
                        together.kind)
      : joint == nullptr
          ? std::string("that joint is not in the logbook any more")
          : fmt::format("{} has positions 1 to {} only", joint->joint->code, joint->joint->count);
  return fmt::format("{} entries speak of {}, but {}", together.parts.size(),
                     record::write_address(together.joint, together.positions), missing);
}

using Stamps = std::vector<const record::Stamp*>;

// Finds the place of a joint and position among the survey's.
class Places {
 public:
  explicit Places(const finding::Survey& survey) : survey_(survey), index_(survey) {}

  // Calls `act` with the joint's place and the position for each of the entry that exists.
  template <class Content, class Act>
  void for_each(const record::Entry<Content>& entry, Act&& act) const {
    const auto joint = index_.place_of(entry.content.joint);
    if (!joint) return;
    for (const int position : entry.content.positions) {
      if (position <= survey_.joints[*joint].joint->count) act(*joint, position);
    }
  }

 private:
  const finding::Survey& survey_;
  finding::JointIndex index_;
};

using Place = std::pair<std::size_t, int>;

// The places that more than one removal names, and these removals; there are few.
std::map<Place, Stamps> repeated_removals(const Case& subject, const Places& places) {
  std::vector<std::vector<const record::Stamp*>> first(subject.survey.joints.size());
  std::map<Place, Stamps> repeated;
  for (const auto& entry : subject.job.removals) {
    places.for_each(entry, [&](std::size_t joint, int position) {
      auto& of_joint = first[joint];
      of_joint.resize(subject.survey.joints[joint].positions.size());
      auto*& known = of_joint[static_cast<std::size_t>(position) - 1];
      if (known == nullptr) {
        known = &entry.stamp;
        return;
      }
      auto& stamps = repeated[{joint, position}];
      if (stamps.empty()) stamps.push_back(known);
      stamps.push_back(&entry.stamp);
    });
  }
  return repeated;
}

void sort_by_time(Stamps& stamps) {
  std::ranges::sort(stamps,
                    [](const auto* a, const auto* b) { return record::is_earlier(*a, *b); });
}

// The first two of `outs` with none of `ins` between them; both in the order done.
std::optional<std::pair<const record::Stamp*, const record::Stamp*>> twice_without(
    const Stamps& outs, const Stamps& ins) {
  auto in = ins.begin();
  for (std::size_t i = 1; i < outs.size(); ++i) {
    while (in != ins.end() && record::is_earlier(**in, *outs[i - 1])) ++in;
    if (in == ins.end() || !record::is_earlier(**in, *outs[i])) {
      return std::pair{outs[i - 1], outs[i]};
    }
  }
  return std::nullopt;
}

void out_twice(const Case& subject, Deviations& deviations) {
  const Places places(subject.survey);
  auto repeated = repeated_removals(subject, places);
  if (repeated.empty()) return;
  std::map<Place, Stamps> back_in;
  for (const auto& entry : subject.job.tightenings) {
    places.for_each(entry, [&](std::size_t joint, int position) {
      const Place place{joint, position};
      if (repeated.contains(place)) back_in[place].push_back(&entry.stamp);
    });
  }
  for (auto& [place, outs] : repeated) {
    auto& ins = back_in[place];
    sort_by_time(outs);
    sort_by_time(ins);
    const auto twice = twice_without(outs, ins);
    if (!twice) continue;
    deviations.push_back(flag_position(
        kOutTwice, Level::Check, subject.survey.joints[place.first], place.second,
        says("lines {} and {} both record it as out, and nothing says that it went back in between",
             as::line(*twice->first), as::line(*twice->second)),
        "strike the line that is wrong; it may be another position's"));
  }
}

void found_after_tightening(const JointCase& at, const finding::PositionState& position,
                            Deviations& deviations) {
  const auto* finding = position.finding();
  if (at.work == nullptr || finding == nullptr) return;
  const auto& done = at.work->done_at(position.position);
  if (done.empty()) return;
  const auto& tested = finding->entry->stamp;
  if (!record::is_earlier(done.front()->stamp, tested)) return;
  const auto& code = at.joint.joint->code;
  const auto* stripe = at.progress().finish_of(code, position.position).drawn;
  if (stripe != nullptr && record::is_earlier(stripe->stamp, tested)) {
    deviations.push_back(apart(flag_position(
        kFoundAfterTightening, Level::Note, at.joint, position.position,
        says("line {} tests it after its final stripe was drawn", as::line(tested)),
        fmt::format("if it is coming apart again, record it as out too: out {}; if the time of "
                    "the line is wrong, enter it again with its own: --at ... --replace {}",
                    record::write_address(code, position.position), tested.line))));
    return;
  }
  deviations.push_back(flag_position(
      kFoundAfterTightening, Level::Check, at.joint, position.position,
      says("line {} tests it after line {} tightened it again", as::line(tested),
           as::line(done.front()->stamp)),
      "it tells of the new tightening, not of what the machine ran with; check the time of both "
      "lines, and strike the finding"));
}

}  // namespace

constinit const Rule kOutTwice{"out twice",
                               "fasteners recorded as out again without having gone back in",
                               out_twice, RestsOn{.removals = true}, each_in_turn};
constinit const Rule kFoundAfterTightening{
    "found after tightening", "found-torque tests of a fastener that was back in already",
    found_after_tightening, RestsOn{.findings = true, .tightenings = true}, each_in_turn};
constinit const Rule kStrayEntry{
    "stray entry", "lines about a joint, position or wrench that is not in the logbook",
    stray_entry, RestsOn{}, strays_together};

}  // namespace audit
