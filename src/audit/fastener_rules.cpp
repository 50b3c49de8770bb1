#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/other_fastener.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::PositionState;
using record::BreakLoose;

// Positions of the joint, and of those that are not recorded as out what is.
struct NotOut {
  std::vector<int> all;
  std::vector<int> tested;
  std::vector<int> tightened;
};

NotOut not_out(const JointCase& at) {
  NotOut missing;
  for (const auto& position : at.joint.positions) {
    if (position.removal != nullptr) continue;
    const int number = position.position;
    missing.all.push_back(number);
    if (position.finding() != nullptr) missing.tested.push_back(number);
    if (at.work != nullptr && at.work->is_back(number)) missing.tightened.push_back(number);
  }
  return missing;
}

// "nothing is recorded of 2-4", "2-4 are not (tested: 2-3)". Which they are is the evidence.
Statement what_is_recorded(const NotOut& missing) {
  auto text = says("nothing is recorded of {}", as::numbers(missing.all));
  if (missing.tested.empty() && missing.tightened.empty()) return text;
  std::string also;
  const auto add = [&](std::string_view what, const std::vector<int>& which) {
    if (which.empty()) return;
    also += fmt::format("{}{}: {}", also.empty() ? "" : ", ", what, record::write_positions(which));
  };
  add("tested", missing.tested);
  add("tightened", missing.tightened);
  text.old_text = text.text;
  text.text = fmt::format("{} {} not ({})", record::write_positions(missing.all),
                          missing.all.size() == 1 ? "is" : "are", also);
  return text;
}

void count_out(const JointCase& at, Deviations& deviations) {
  const auto missing = not_out(at);
  const auto out = at.joint.positions.size() - missing.all.size();
  if (out == 0 || missing.all.empty()) return;
  auto deviation = flag_joint(
      kCountOut, Level::Hold, at.joint,
      says("{} of {} positions are accounted for as out or found empty; {}", as::count(out),
           as::count(at.joint.positions.size()), what_is_recorded(missing)),
      fmt::format("count what is in the bag, then record the rest: out {}/{}", at.joint.joint->code,
                  record::write_positions(missing.all)));
  deviation.positions = missing.all;
  deviations.push_back(std::move(deviation));
}

// Tightened, and nobody wrote that anything of it came out: how it came out, what was damaged and
// what has to be renewed is not known. A test alone is no such matter: it is made before the
// fastener comes out.
void never_out(const JointCase& at, Deviations& deviations) {
  const auto missing = not_out(at);
  if (missing.all.size() < at.joint.positions.size()) return;
  const auto& code = at.joint.joint->code;
  if (missing.tightened.empty()) {
    if (!at.whole.lookups->is_closing) return;
    auto deviation = flag_joint(
        kNeverOut, Level::Note, at.joint,
        says("nothing is recorded of {}, and the plan has it", as::numbers(missing.all)),
        fmt::format("if it came out, enter that with its time: out {} --at ...; if it stays as it "
                    "was found, decide so: settle never-out:{} --as use-as-is --why ...",
                    record::write_address(code, missing.all), code));
    deviation.positions = missing.all;
    deviations.push_back(std::move(deviation));
    return;
  }
  // Where new ones lay ready renewed_in_place tells it.
  const bool is_told = std::ranges::any_of(missing.tightened, [&](int position) {
    return at.whole.lookups->new_fasteners.at(code, position).beside_the_old;
  });
  if (is_told) return;
  auto deviation = flag_joint(
      kNeverOut, Level::Check, at.joint,
      says("{} was tightened, and none of {} positions is recorded as out",
           as::numbers(missing.tightened), as::count(at.joint.positions.size())),
      fmt::format("if it came out, enter that with its time (a line that was struck is shown by "
                  "history {0}): out {0}/1-{1} --at ...; if it was tightened where it sat, decide "
                  "so: settle never-out:{0} --as use-as-is --why ...",
                  code, at.joint.positions.size()));
  deviation.positions = missing.tightened;
  deviation.keeps_unfinished = true;
  deviations.push_back(std::move(deviation));
}

void found_empty(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr || position.removal->content.broke != BreakLoose::Empty) return;
  deviations.push_back(
      flag_position(kFoundEmpty, Level::Hold, at.joint, position.position,
                    says("the hole was empty before anything was touched"),
                    "find out whether a fastener belongs there; look for where it went, and get "
                    "one of the right size, length and grade"));
}

void break_loose(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr) return;
  const auto broke = position.removal->content.broke;
  const auto flag = [&](Level level, const char* says, const char* what_to_do) {
    deviations.push_back(
        of_kind(flag_position(kBreakLoose, level, at.joint, position.position,
                              {says, as::name(record::word_of(broke)).figures}, what_to_do),
                dashed(record::word_of(broke))));
  };
  if (broke == BreakLoose::Sheared) {
    flag(Level::Hold, "the fastener sheared",
         "get the rest out, check the thread in the part, and renew the fastener");
  } else if (broke == BreakLoose::AlreadyLoose) {
    flag(Level::Hold, "the fastener was loose before it was touched",
         "look for fretting, a worn seat or a stretched fastener, and compare its siblings");
  } else if (broke == BreakLoose::Seized) {
    flag(Level::Check, "the fastener was seized",
         "clean and check both threads; renew it where the thread is pulled");
  }
}

constexpr const char* kMendHole =
    "repair the hole in the way the maker of the part allows, and try it with a new fastener by "
    "hand";

void damaged_thread(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr || !position.removal->content.damaged_thread) return;
  const auto damaged = *position.removal->content.damaged_thread;
  const bool on_fastener = damaged != record::DamagedThread::Hole;
  deviations.push_back(of_kind(
      flag_position(kDamagedThread, Level::Hold, at.joint, position.position,
                    says("the thread {} was found damaged",
                         Statement{on_fastener ? "of the fastener" : "in the hole",
                                   as::name(record::word_of(damaged)).figures}),
                    on_fastener ? "renew the fastener; run a good one through the hole by hand "
                                  "before any torque"
                                : kMendHole),
      dashed(record::word_of(on_fastener ? record::DamagedThread::Fastener : damaged))));
}

// Where both are damaged the new fastener mends no hole and the repair of the hole no fastener:
// each is decided and done by itself.
void damaged_hole(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr) return;
  if (position.removal->content.damaged_thread != record::DamagedThread::Both) return;
  deviations.push_back(flag_position(
      kDamagedHole, Level::Hold, at.joint, position.position,
      {"the thread in the hole was found damaged too", as::name("hole").figures}, kMendHole));
}

// What another size, length or grade does in the hole, the worst first.
std::string what_it_does(const record::Joint& joint, const record::Removal& removal) {
  std::string text;
  if (!removal.other_size.empty() && removal.other_size != joint.size) {
    text +=
        "; a thread of another size or pitch holds on few flanks or spoils the hole: look at "
        "its thread, and try the right one by hand";
  }
  if (removal.other_length && joint.length &&
      !quantity::is_same(*removal.other_length, *joint.length)) {
    text += "; a short one holds on too few threads, a long one may bottom out in a blind hole";
  }
  if (!removal.other_grade.empty() && removal.other_grade != joint.grade) {
    text += "; of another grade it bears another torque than the one specified";
  }
  return text;
}

void other_fastener(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr) return;
  const auto& removal = position.removal->content;
  const auto& joint = *at.joint.joint;
  const std::string text = finding::other_fastener(joint, removal);
  if (text.empty()) return;
  const auto partner = at.whole.lookups->odd_lengths.swapped_with(joint, removal);
  const auto differs = as::name(text);
  deviations.push_back(
      of_kind(flag_position(kOtherFastener, Level::Hold, at.joint, position.position,
                            partner ? says("{}; {} has the length that belongs here: swapped",
                                           differs, as::name(*partner))
                                    : differs,
                            "put the right fastener in" + what_it_does(joint, removal)),
              partner ? "swapped" : "another"));
}

// Some of a joint went into a bag, and of others nobody knows where they are.
void bag_missing(const JointCase& at, Deviations& deviations) {
  std::vector<int> nowhere;
  int bagged = 0;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr) continue;
    if (at.work != nullptr && at.work->is_back(position.position)) continue;
    const auto& removal = position.removal->content;
    if (!removal.bag.empty()) {
      ++bagged;
    } else if (removal.broke != BreakLoose::Empty && removal.broke != BreakLoose::Sheared) {
      nowhere.push_back(position.position);
    }
  }
  if (bagged == 0 || nowhere.empty()) return;
  auto deviation = flag_joint(
      kBagMissing, Level::Check, at.joint,
      says("{} of them are in a bag, but no bag is recorded for position {}", as::count(bagged),
           as::numbers(nowhere)),
      "count what is in the bag against the holes; strike the line and enter it with its bag");
  deviation.positions = nowhere;
  deviations.push_back(std::move(deviation));
}

}  // namespace

constinit const Rule kBagMissing{"bag missing",
                                 "fasteners without a bag where their siblings have one",
                                 bag_missing, kRestsOn<record::Removal>};
constinit const Rule kCountOut{
    "count out", "positions accounted for, out or found empty, against the joint's count",
    count_out, kRestsOn<record::Removal>};
constinit const Rule kNeverOut{"never out",
                               "joints that the plan has and of which nothing came out", never_out,
                               kRestsOn<record::Removal>};
constinit const Rule kFoundEmpty{"found empty", "holes that were empty at teardown", found_empty,
                                 kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kBreakLoose{"break loose", "fasteners that were loose, sheared or seized",
                                 break_loose, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kDamagedThread{"damaged thread",
                                    "threads that were torn, pulled or crossed at teardown",
                                    damaged_thread, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kDamagedHole{
    "damaged hole", "threads in the hole that were damaged together with the fastener's",
    damaged_hole, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kOtherFastener{
    "other fastener", "size, length or grade that is not the joint's; lengths swapped",
    other_fastener, kRestsOn<record::Removal>, each_in_turn};

}  // namespace audit
