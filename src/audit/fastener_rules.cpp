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

void count_out(const JointCase& at, Deviations& deviations) {
  std::vector<int> missing;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr) missing.push_back(position.position);
  }
  const auto out = at.joint.positions.size() - missing.size();
  if (out == 0 || missing.empty()) return;
  auto deviation =
      flag_joint(kCountOut, Level::Hold, at.joint,
                 says("{} of {} positions are accounted for as out or found empty; nothing is "
                      "recorded of {}",
                      as::count(out), as::count(at.joint.positions.size()), as::numbers(missing)),
                 fmt::format("count what is in the bag, then record the rest: out {}/{}",
                             at.joint.joint->code, record::write_positions(missing)));
  deviation.positions = missing;
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

void damaged_thread(const JointCase& at, const PositionState& position, Deviations& deviations) {
  if (position.removal == nullptr || !position.removal->content.damaged_thread) return;
  const auto damaged = *position.removal->content.damaged_thread;
  const bool in_hole = damaged != record::DamagedThread::Fastener;
  const bool on_fastener = damaged != record::DamagedThread::Hole;
  const auto* where = !in_hole       ? "of the fastener"
                      : !on_fastener ? "in the hole"
                                     : "of the fastener and in the hole";
  deviations.push_back(of_kind(
      flag_position(
          kDamagedThread, Level::Hold, at.joint, position.position,
          says("the thread {} was found damaged",
               Statement{where, as::name(record::word_of(damaged)).figures}),
          fmt::format("{}{}", on_fastener ? "renew the fastener; " : "",
                      in_hole ? "repair the hole in the way the maker of the part allows, and try "
                                "it with a new fastener by hand"
                              : "run a good one through the hole by hand before any torque")),
      dashed(record::word_of(damaged))));
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
  deviations.push_back(flag_position(
      kOtherFastener, Level::Hold, at.joint, position.position,
      partner
          ? says("{}; {} has the length that belongs here: swapped", differs, as::name(*partner))
          : differs,
      "put the right fastener in" + what_it_does(joint, removal)));
}

// Some of a joint went into a bag, and of others nobody knows where they are.
void bag_missing(const JointCase& at, Deviations& deviations) {
  std::vector<int> nowhere;
  int bagged = 0;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr) continue;
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
constinit const Rule kFoundEmpty{"found empty", "holes that were empty at teardown", found_empty,
                                 kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kBreakLoose{"break loose", "fasteners that were loose, sheared or seized",
                                 break_loose, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kDamagedThread{"damaged thread",
                                    "threads that were torn, pulled or crossed at teardown",
                                    damaged_thread, kRestsOn<record::Removal>, each_in_turn};
constinit const Rule kOtherFastener{
    "other fastener", "size, length or grade that is not the joint's; lengths swapped",
    other_fastener, kRestsOn<record::Removal>, each_in_turn};

}  // namespace audit
