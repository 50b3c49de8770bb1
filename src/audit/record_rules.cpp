#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/joint_index.h"
#include "record/address.h"

namespace audit {
namespace {

constexpr std::size_t kTypedTail = 8;

// "; line 4 was struck in line 7 (LM), where this line was not known": of a wrench that merged
// copies have it both ways of.
std::string struck_apart_from(const finding::Stray& stray, const record::Apart& apart) {
  for (const auto& struck : apart.struck()) {
    const auto* wrench = std::get_if<record::Wrench>(&struck.content);
    if (wrench == nullptr || !record::same_code(wrench->name, stray.wrench)) continue;
    if (!apart.are_apart(struck.by, *stray.stamp)) continue;
    return fmt::format("; line {} was struck in line {} ({}), where this one was not known",
                       struck.stamp.line, struck.by.line, struck.by.by);
  }
  return {};
}

Statement what_is_missing(const finding::Stray& stray, const finding::JointIndex& joints,
                          const record::Apart& apart) {
  if (!stray.hold_point.empty()) {
    return as::wording("that hold point is not in the logbook any more");
  }
  if (!stray.item.empty()) return as::wording("that item is not in the logbook any more");
  if (!stray.wrench.empty()) {
    return says("wrench {}, with which it was done, is not in the logbook any more{}",
                as::name(stray.wrench), as::wording(struck_apart_from(stray, apart)));
  }
  const auto* joint = joints.find(stray.joint);
  if (joint == nullptr) return as::wording("that joint is not in the logbook any more");
  return says("{} has positions 1 to {} only", as::name(joint->joint->code),
              as::count(joint->joint->count));
}

std::string where_it_belongs(const finding::Stray& stray, const finding::JointIndex& joints) {
  if (!stray.hold_point.empty() || !stray.item.empty()) {
    return fmt::format("enter it again: {} ...; or strike the line: strike {} --why ...",
                       stray.item.empty() ? fmt::format("hold-point {} --what", stray.hold_point)
                                          : fmt::format("item {} --what", stray.item),
                       stray.stamp->line);
  }
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
    const std::string address = !stray.hold_point.empty() ? stray.hold_point
                                : !stray.item.empty()     ? stray.item
                                : stray.position > 0
                                    ? record::write_address(stray.joint, stray.position)
                                    : stray.joint;
    auto deviation =
        flag_job(kStrayEntry, Level::Hold,
                 says("line {} speaks of {}, but {}", as::line(*stray.stamp), as::name(address),
                      what_is_missing(stray, joints, subject.job.apart)),
                 where_it_belongs(stray, joints));
    // The tail of the line's own id, so that it is short enough to type and the same in every copy.
    deviation.id = fmt::format("stray-entry:{}:{}", address,
                               stray.stamp->id.substr(stray.stamp->id.size() - kTypedTail));
    deviation.joint = stray.joint;
    deviation.kind = stray.wrench;
    auto& part = deviation.parts.front();
    part.id = deviation.id;
    part.told_in = stray.stamp;
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
          ? fmt::format("wrench {}, with which they were done, is not in the logbook any more",
                        together.kind)
      : joint == nullptr
          ? std::string("that joint is not in the logbook any more")
          : fmt::format("{} has positions 1 to {} only", joint->joint->code, joint->joint->count);
  std::set<std::int64_t> lines;  // one can speak of several positions
  for (const auto& part : together.parts) lines.insert(part.told_in->line);
  return fmt::format("{} of {}, but {}",
                     lines.size() == 1 ? fmt::format("line {} speaks", *lines.begin())
                                       : fmt::format("{} lines speak", lines.size()),
                     record::write_address(together.joint, together.positions), missing);
}

using Stamps = std::vector<const record::Stamp*>;

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

// The lines of a kind by the positions that they name; index 0 is position 1.
template <class Kind>
std::vector<Stamps> by_position(const JointCase& at) {
  std::vector<Stamps> stamps(at.joint.positions.size());
  for (const auto* entry : at.lines.of<Kind>()) {
    for (const int position : entry->content.positions) {
      const auto place = static_cast<std::size_t>(position) - 1;
      if (place < stamps.size()) stamps[place].push_back(&entry->stamp);
    }
  }
  for (auto& each : stamps) sort_by_time(each);
  return stamps;
}

// What the lines do not say alike; what they say and which they are is the evidence.
Statement what_they_dispute(const std::vector<finding::DisputedOut>& disputed,
                            const finding::Outs& outs) {
  std::vector<Statement> told;
  for (const auto& each : disputed) {
    Statement of_it{finding::in_words(each, outs), as::name(each.what).figures};
    for (const auto& said : each.said) of_it.figures += as::name(said).figures;
    told.push_back(std::move(of_it));
  }
  auto all = joined(told, "; ");
  for (const auto* out : outs) all.figures += out->stamp.id + '|';
  return all;
}

// Several lines tell how it came out, and not the same: none of them outvotes another, so that the
// worse counts and everything that it asks for.
void disputed_out(const JointCase& at, const finding::PositionState& position,
                  Deviations& deviations) {
  const auto disputed = finding::disputed_outs(*at.joint.joint, position.outs);
  const bool is_grave = std::ranges::any_of(disputed, &finding::DisputedOut::is_grave);
  const auto& first = position.outs.front()->stamp;
  const auto& last = position.outs.back()->stamp;
  const bool is_apart = at.whole.job.apart.are_apart(first, last);
  deviations.push_back(of_kind(
      flag_position(
          kOutTwice, is_grave ? Level::Hold : Level::Check, at.joint, position.position,
          says("recorded as out {}, and not the same: {}",
               as::wording(is_apart ? "in copies of this logbook that were apart" : "twice"),
               what_they_dispute(disputed, position.outs)),
          fmt::format("{}look at the fastener and its hole, ask who took it out, and strike the "
                      "line that is wrong: strike {} --why ... or strike {} --why ...; where it "
                      "names more positions, enter it again for those: out ... --replace",
                      is_grave ? "until one is struck the worse of each counts: " : "", first.line,
                      last.line)),
      "disputed"));
}

void out_twice(const JointCase& at, Deviations& deviations) {
  // Nearly every joint came apart once, by a few lines of some positions each.
  if (at.lines.of<record::Removal>().size() < 2) return;
  const auto out = by_position<record::Removal>(at);
  const auto back_in = by_position<record::Tightening>(at);
  for (const auto& position : at.joint.positions) {
    if (position.is_out_disputed) {
      disputed_out(at, position, deviations);
      continue;
    }
    const auto place = static_cast<std::size_t>(position.position) - 1;
    const auto twice = twice_without(out[place], back_in[place]);
    if (!twice) continue;
    const bool is_apart = at.whole.job.apart.are_apart(*twice->first, *twice->second);
    deviations.push_back(flag_position(
        kOutTwice, Level::Check, at.joint, position.position,
        says("lines {} and {} both record it as out, and nothing says that it went back in "
             "between{}",
             as::line(*twice->first), as::line(*twice->second),
             as::wording(is_apart ? "; they were written while copies of this logbook were apart"
                                  : "")),
        is_apart ? "ask both who took it out; strike the line that is wrong"
                 : "strike the line that is wrong; it may be another position's"));
  }
}

std::string with_its_own_time(const record::Entry<record::Tightening>& line) {
  return fmt::format(
      "if its time is wrong, enter it again with its own: tighten {} --pass {} --at ... --replace "
      "{} --why ...",
      record::address_text(line.content), line.content.pass, line.stamp.line);
}

// Written when it lay in its bag, and dated as if it had been in.
void tightened_before_out(const JointCase& at, const finding::PositionState& position,
                          Deviations& deviations) {
  if (at.work == nullptr || position.removal == nullptr) return;
  const auto& code = at.joint.joint->code;
  const auto dated = at.progress().dated_before_out(code, position.position);
  if (dated.empty()) return;
  const auto& last = *dated.back();
  deviations.push_back(flag_position(
      kTightenedBeforeOut, Level::Check, at.joint, position.position,
      says("line {} tightened it {}, before it came out (line {}), and was written after that: it "
           "counts for nothing of what has gone back since",
           as::line(last.stamp), as::moment(last.stamp.done_at), as::line(position.removal->stamp)),
      with_its_own_time(last)));
}

// Written when what it comes after stood there already, and dated as if it had come before that.
void dated_too_early(const JointCase& at, const finding::PositionState& position,
                     Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto early = at.progress().dated_too_early(at.joint.joint->code, position.position);
  if (early.empty()) return;
  const auto& [work, follows] = early.front();
  deviations.push_back(flag_position(
      kDatedTooEarly, Level::Check, at.joint, position.position,
      says("line {} did pass {} {}, before line {} ({}), and was written after that: it counts for "
           "nothing of what that line leaves to be done, and the pass is open",
           as::line(work->stamp), as::count(work->content.pass), as::moment(work->stamp.done_at),
           as::line(*follows), as::moment(follows->done_at)),
      with_its_own_time(*work)));
}

}  // namespace

constinit const Rule kDatedTooEarly{
    "dated too early", "tightenings that were dated before the line that they have to follow",
    dated_too_early, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kTightenedBeforeOut{
    "tightened before out", "tightenings that were dated before the fastener came out",
    tightened_before_out, kRestsOn<record::Removal, record::Tightening>, each_in_turn};
constinit const Rule kOutTwice{"out twice",
                               "fasteners recorded as out again without having gone back in",
                               out_twice, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kStrayEntry{
    "stray entry",
    "lines about a joint, position, wrench, hold point or item that is not in the logbook",
    stray_entry,
    {},
    strays_together};

}  // namespace audit
