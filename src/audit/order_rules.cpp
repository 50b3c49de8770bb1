#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <unordered_map>
#include <unordered_set>

#include "audit/flag.h"
#include "audit/rules.h"
#include "record/address.h"

namespace audit {
namespace {

using plan::PlannedPass;
using progress::JointWork;
using progress::Tightened;

void no_order(const Case& subject, Deviations& deviations) {
  if (subject.no_order.empty()) return;
  deviations.push_back(
      flag_job(kNoOrder, Level::Hold, as::name(subject.no_order),
               fmt::format("enter one of the joints again with the right --after or --covers, such "
                           "as: boltwitness {}",
                           subject.order_mend)));
}

// The first real work on a position in its pass of this number, or its being left out; nothing
// where neither is on record.
const Tightened* first_in_pass(const JointWork& work, int position, int pass) {
  const auto& done = work.done_at(position);
  const auto found = std::ranges::find_if(done, [&](const Tightened* entry) {
    return entry->content.pass == pass && !entry->content.second_check;
  });
  return found == done.end() ? nullptr : *found;
}

// The same, where one that was left out at first was done later: when it was done.
const Tightened* first_work_in_pass(const JointWork& work, int position, int pass) {
  const auto& done = work.done_at(position);
  const auto found = std::ranges::find_if(done, [&](const Tightened* entry) {
    return entry->content.pass == pass && record::is_work(entry->content);
  });
  return found == done.end() ? first_in_pass(work, position, pass) : *found;
}

// When work on the joint began this time: the first tightening that counts.
const Tightened* began(const JointWork& work) {
  const Tightened* first = nullptr;
  for (const auto& done : work.done) {
    for (const auto* entry : done) {
      if (!record::is_work(entry->content)) continue;
      if (first == nullptr || record::is_earlier(entry->stamp, first->stamp)) first = entry;
      break;
    }
  }
  return first;
}

// The first work on a position in the last of its passes, or its being left out.
const Tightened* last_pass_of(const Case& subject, const JointWork& work, int position) {
  const auto steps = subject.work->progress().steps_of(work.state->joint->code, position);
  return steps.empty() ? nullptr : first_in_pass(work, position, steps.back()->pass_number());
}

// One of its passes was left out and has not been done since.
bool has_left_out(const Case& subject, const finding::JointState& joint, int position) {
  return std::ranges::any_of(
      subject.work->progress().steps_of(joint.joint->code, position),
      [](const progress::Step* step) { return step->stands == progress::Step::Stands::LeftOut; });
}

// Positions of a joint that were out at this moment and had not reached their last pass. Under a
// cover what was left out cannot be done later: it is no better than what was forgotten.
std::vector<int> unfinished_at(const Case& subject, const finding::JointState& joint,
                               const record::Stamp& moment, bool is_covered) {
  std::vector<int> open;
  const auto* work = subject.work->joint(joint.joint->code);
  for (const auto& position : joint.positions) {
    if (position.removal == nullptr) continue;
    if (!record::is_earlier(position.removal->stamp, moment)) continue;
    if (is_covered && has_left_out(subject, joint, position.position)) {
      open.push_back(position.position);
      continue;
    }
    const auto* done = work == nullptr ? nullptr : last_pass_of(subject, *work, position.position);
    if (done != nullptr && record::is_earlier(done->stamp, moment)) continue;
    // Finished then, whatever has sent it back since.
    if (subject.work->progress().had_final_value(joint.joint->code, position.position, moment)) {
      continue;
    }
    // Its last pass may have had another number when it was done.
    if (done == nullptr &&
        subject.work->progress().has_final_value(joint.joint->code, position.position)) {
      continue;
    }
    open.push_back(position.position);
  }
  return open;
}

// Worked on since then while the joint was on over it, which under_cover tells.
bool was_worked_on_under(const Case& subject, const finding::JointState& joint, int position,
                         const finding::JointState& cover) {
  const auto* work = subject.work->joint(joint.joint->code);
  return work != nullptr && std::ranges::any_of(work->done_at(position), [&](const auto* entry) {
           const auto on = subject.lookups->covers.over(joint.joint->code, entry->stamp);
           return std::ranges::find(on, &cover, &progress::CoverOn::cover) != on.end();
         });
}

// One of them lacks its final value still, and the joint is on over it.
bool is_out_of_reach(const Case& subject, const finding::JointState& joint,
                     const std::vector<int>& open, const finding::JointState& cover) {
  const auto on = subject.lookups->covers.over(joint.joint->code, subject.now);
  return std::ranges::find(on, &cover, &progress::CoverOn::cover) != on.end() &&
         std::ranges::any_of(open, [&](int position) {
           return has_left_out(subject, joint, position) ||
                  !subject.work->progress().has_final_value(joint.joint->code, position);
         });
}

// Of the others it asks for those alone that the joint itself names.
void joint_order(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& joint = *at.joint.joint;
  if (joint.after.empty() && joint.covers.empty()) return;
  const auto* first = began(*at.work);
  if (first == nullptr) return;
  const auto look = [&](const std::string& code, std::string_view verb, bool is_cover) {
    const auto* before = at.whole.lookups->joints.find(code);
    // What gets its final value at a later stage is not finished in its turn, and rightly so; but
    // it has to be reached then.
    if (before == nullptr || (!is_cover && !before->joint->final_when.empty())) return;
    auto open = unfinished_at(at.whole, *before, first->stamp, is_cover);
    if (is_cover) {
      std::erase_if(open, [&](int position) {
        return was_worked_on_under(at.whole, *before, position, at.joint);
      });
    }
    if (open.empty()) return;
    const bool is_hold = is_cover && is_out_of_reach(at.whole, *before, open, at.joint);
    deviations.push_back(flag_part(
        kJointOrder, is_hold ? Level::Hold : Level::Check, at.joint, before->joint->code,
        says("{} {} {}, but was begun (line {}) before {} was finished at {}", as::name(joint.code),
             as::wording(verb), as::name(code), as::line(first->stamp), as::wording(code),
             as::numbers(open)),
        fmt::format("see that {} can still be reached and is finished; open {} again where not",
                    code, joint.code)));
  };
  for (const auto& code : joint.after) look(code, "comes after", false);
  for (const auto& code : joint.covers) look(code, "covers", true);
}

// Tells the passes of a joint apart in an id: those of some positions alone name them.
std::string name_of(const JointWork& work, const PlannedPass& pass) {
  auto name = fmt::format("pass-{}", pass.number);
  if (pass.order.size() == work.state->positions.size()) return name;
  auto positions = pass.order;
  std::ranges::sort(positions);
  return fmt::format("{}-{}", name, record::write_positions(positions));
}

// One position in one line of work.
struct Done {
  const Tightened* entry = nullptr;
  int position = 0;
  std::size_t place = 0;  // in the line, from 0; the same for all of a line that tells no order
};

// All work on the positions of one pass, those done again too, in the order done.
std::vector<Done> work_in_pass(const JointWork& work, const PlannedPass& pass) {
  std::vector<Done> all;
  for (const int position : pass.order) {
    for (const auto* entry : work.done_at(position)) {
      if (entry->content.pass != pass.number || !record::is_work(entry->content)) continue;
      const auto& named = entry->content.positions;
      const auto place = entry->content.in_order
                             ? std::ranges::find(named, position) - named.begin()
                             : std::ptrdiff_t{0};
      all.push_back({entry, position, static_cast<std::size_t>(place)});
    }
  }
  std::ranges::stable_sort(all, [](const Done& a, const Done& b) {
    return a.entry == b.entry ? a.place < b.place
                              : record::is_earlier(a.entry->stamp, b.entry->stamp);
  });
  return all;
}

// The last time that each of the positions was worked on in the pass, in the order done; empty
// where one was not a second time.
std::vector<Done> done_anew(const std::vector<Done>& all, const PlannedPass& pass) {
  std::unordered_map<int, int> times;
  for (const auto& done : all) ++times[done.position];
  for (const int position : pass.order) {
    if (times[position] < 2) return {};
  }
  std::vector<Done> last;
  for (const auto& done : all) {
    if (--times[done.position] == 0) last.push_back(done);
  }
  return last;
}

// The first work in this pass that was done while the position waited for its own pass before:
// after it came out, and before that pass.
const Tightened* overtaken_by(const JointWork& work, int position, int pass_before,
                              const std::vector<Done>& in_pass) {
  const auto* removal = work.state->positions[static_cast<std::size_t>(position) - 1].removal;
  if (removal == nullptr) return nullptr;
  const auto first = std::partition_point(in_pass.begin(), in_pass.end(), [&](const auto& one) {
    return record::is_earlier(one.entry->stamp, removal->stamp);
  });
  if (first == in_pass.end()) return nullptr;
  const auto* own = first_work_in_pass(work, position, pass_before);
  if (own != nullptr && !record::is_earlier(first->entry->stamp, own->stamp)) return nullptr;
  return first->entry;
}

const PlannedPass* pass_of(const JointWork& work, int number, int position) {
  const auto found = std::ranges::find_if(work.passes, [&](const PlannedPass* pass) {
    return pass->number == number && std::ranges::find(pass->order, position) != pass->order.end();
  });
  return found == work.passes.end() ? nullptr : *found;
}

// As advised: both passes were gone through again, the one wholly before the other.
bool was_done_in_order_since(const JointWork& work, const PlannedPass& pass) {
  const auto* before = pass_of(work, pass.number - 1, pass.order.front());
  if (before == nullptr) return false;
  const auto first = done_anew(work_in_pass(work, *before), *before);
  const auto then = done_anew(work_in_pass(work, pass), pass);
  return !first.empty() && !then.empty() &&
         record::is_earlier(first.back().entry->stamp, then.front().entry->stamp);
}

// A pass before that of this line was done at the position since: it was slackened and is gone
// through anew. One that had been written before this line, which its pass stands on still, is no
// work anew: the lines are in another order than their times.
bool was_undone_since(const JointCase& at, int position, const Tightened& line) {
  const auto* step = at.progress().step(at.joint.joint->code, line.content.pass, position);
  const bool stands =
      step != nullptr && step->stands == progress::Step::Stands::Done && step->entry == &line;
  return std::ranges::any_of(at.work->done_at(position), [&](const Tightened* entry) {
    if (stands && entry->stamp.id < line.stamp.id) return false;
    return record::is_work(entry->content) && entry->content.pass < line.content.pass &&
           record::is_later(entry->stamp, line.stamp);
  });
}

// Work on a position that came out in the midst of its passes, before it began again at the first,
// or that was undone since.
bool counts_no_more(const JointCase& at, const Done& one) {
  if (was_undone_since(at, one.position, *one.entry)) return true;
  const auto& code = at.joint.joint->code;
  if (at.progress().broken_off(code, one.position) == nullptr) return false;
  const auto steps = at.progress().steps_of(code, one.position);
  const auto* anew = first_in_pass(*at.work, one.position, steps.front()->pass_number());
  return anew == nullptr || record::is_earlier(one.entry->stamp, anew->stamp);
}

void pass_order(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& work = *at.work;
  for (const auto* pass : work.passes) {
    if (pass->number == 1 || was_done_in_order_since(work, *pass)) continue;
    const int before = pass->number - 1;
    auto in_pass = work_in_pass(work, *pass);
    std::erase_if(in_pass, [&](const Done& one) { return counts_no_more(at, one); });
    std::vector<int> waiting;
    const Tightened* first = nullptr;
    for (const int position : pass->order) {
      // One that went on without the pass before is pass_skipped's to tell.
      if (first_in_pass(work, position, before) == nullptr &&
          first_in_pass(work, position, pass->number) != nullptr) {
        continue;
      }
      const auto* overtaking = overtaken_by(work, position, before, in_pass);
      if (overtaking == nullptr) continue;
      waiting.push_back(position);
      if (first == nullptr || record::is_earlier(overtaking->stamp, first->stamp)) {
        first = overtaking;
      }
    }
    if (waiting.empty()) continue;
    std::ranges::sort(waiting);
    auto deviation = flag_part(
        kPassOrder, Level::Check, at.joint, name_of(work, *pass),
        says("pass {} was begun (line {}) while pass {} was still open at {}",
             as::count(pass->number), as::line(first->stamp), as::count(before),
             as::numbers(waiting)),
        fmt::format("the part may sit askew: slacken the joint and go through its passes again in "
                    "order, each wholly before the next: tighten {0}/{1} --pass {2}, then tighten "
                    "{0}/{1} --pass {3}",
                    at.joint.joint->code, fmt::join(pass->order, ","), before, pass->number));
    deviation.positions = waiting;
    deviation.keeps_unfinished = at.joint.joint->critical;
    deviations.push_back(std::move(deviation));
  }
}

// The work of a pass parted into rounds over its positions; one that is done again within a round
// counts there once. All but the last have every position.
std::vector<std::vector<Done>> rounds_of(const JointWork& work, const PlannedPass& pass) {
  std::vector<std::vector<Done>> rounds;
  std::unordered_set<int> there;
  for (const auto& done : work_in_pass(work, pass)) {
    if (rounds.empty() || there.size() == pass.order.size()) {
      rounds.emplace_back();
      there.clear();
    }
    if (there.insert(done.position).second) rounds.back().push_back(done);
  }
  return rounds;
}

// The last round that has every position, else what there is of the first.
std::vector<Done> last_whole(std::vector<std::vector<Done>> rounds, const PlannedPass& pass) {
  if (rounds.size() > 1 && rounds.back().size() < pass.order.size()) rounds.pop_back();
  return rounds.empty() ? std::vector<Done>{} : std::move(rounds.back());
}

// The positions in the order done, where that is not the plan's.
std::vector<int> wrong_order(const JointWork& work, const PlannedPass& pass,
                             const std::vector<Done>& round) {
  std::unordered_map<int, std::size_t> rank;
  for (std::size_t i = 0; i < pass.order.size(); ++i) rank[pass.order[i]] = i;
  std::optional<std::size_t> highest_before;  // of what was surely done before this one
  std::optional<std::size_t> highest;
  const Done* last = nullptr;
  bool is_wrong = false;
  std::vector<int> positions;
  for (const auto& done : round) {
    const int position = done.position;
    const auto* removal = work.state->positions[static_cast<std::size_t>(position) - 1].removal;
    // One that came out again after the pass was begun goes back by itself.
    if (removal != nullptr && !positions.empty() &&
        record::is_earlier(round.front().entry->stamp, removal->stamp)) {
      continue;
    }
    const bool is_after = last == nullptr || done.entry != last->entry || done.place > last->place;
    if (is_after) highest_before = highest;
    last = &done;
    if (highest_before && rank[position] < *highest_before) is_wrong = true;
    highest = highest ? std::max(*highest, rank[position]) : rank[position];
    positions.push_back(position);
  }
  return is_wrong ? positions : std::vector<int>{};
}

// As advised: a later pass was gone through once more in the right order.
bool was_gone_round_since(const JointWork& work, const PlannedPass& pass) {
  return std::ranges::any_of(work.passes, [&](const PlannedPass* later) {
    if (later->number <= pass.number) return false;
    if (std::ranges::find(later->order, pass.order.front()) == later->order.end()) return false;
    const auto rounds = rounds_of(work, *later);
    const auto last = last_whole(rounds, *later);
    const bool is_anew = rounds.size() > 1 && last.front().entry != rounds.front().front().entry;
    return is_anew && wrong_order(work, *later, last).empty();
  });
}

// What sets the order right: once more round at the full value, which an angle cannot take twice.
std::string round_anew_text(const JointWork& work, const PlannedPass& pass) {
  const PlannedPass* last = &pass;
  for (const auto* later : work.passes) {
    if (later->number > last->number && std::ranges::is_permutation(later->order, pass.order)) {
      last = later;
    }
  }
  const auto kind = last->pass.kind;
  if (kind != record::PassKind::Torque && kind != record::PassKind::Check) {
    return "slacken the joint and go through its passes again in the right order";
  }
  return fmt::format(
      "go round once more at the full value in the right order and see that nothing turns: tighten "
      "{}/{} --pass {}",
      work.state->joint->code, fmt::join(last->order, ","), last->number);
}

// Positions as far as a line can hold them.
Statement listed(const std::vector<int>& positions) {
  constexpr std::size_t kMost = 16;
  const std::vector<int> shown(
      positions.begin(),
      positions.begin() + static_cast<std::ptrdiff_t>(std::min(kMost, positions.size())));
  return {fmt::format("{}{}", fmt::join(shown, ", "), positions.size() > kMost ? " ..." : ""),
          fmt::format("{}|", fmt::join(positions, ","))};
}

void position_order(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  for (const auto* pass : at.work->passes) {
    const auto round = last_whole(rounds_of(*at.work, *pass), *pass);
    const auto wrong = wrong_order(*at.work, *pass, round);
    if (wrong.empty() || was_gone_round_since(*at.work, *pass)) continue;
    deviations.push_back(
        flag_part(kPositionOrder, Level::Check, at.joint, name_of(*at.work, *pass),
                  says("pass {} went {} where the order is {}", as::count(pass->number),
                       listed(wrong), listed(pass->order)),
                  round_anew_text(*at.work, *pass)));
    deviations.back().keeps_unfinished = at.joint.joint->critical;
  }
}

}  // namespace

constinit const Rule kNoOrder{"no order", "joints that wait for each other in a circle", no_order};
constinit const Rule kJointOrder{"joint order",
                                 "joints tightened before one that has to be finished first",
                                 joint_order, kRestsOn<record::Tightening>};
constinit const Rule kPassOrder{"pass order", "passes begun while the one before was still open",
                                pass_order, kRestsOn<record::Tightening>};
constinit const Rule kPositionOrder{"position order",
                                    "positions tightened in another order than the plan's",
                                    position_order, kRestsOn<record::Tightening>};

}  // namespace audit
