#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/other_fastener.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using finding::PositionState;
using record::BreakLoose;

template <class Act>
void for_each_removed(const Case& subject, Act&& act) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& position : joint.positions) {
      if (position.removal != nullptr) act(joint, position, position.removal->content);
    }
  }
}

void count_out(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    std::vector<int> missing;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) missing.push_back(position.position);
    }
    const auto out = joint.positions.size() - missing.size();
    if (out == 0 || missing.empty()) continue;
    deviations.push_back(flag_joint(
        kCountOut, Level::Hold, joint,
        fmt::format("{} of {} positions are accounted for as out or found empty; nothing "
                    "is recorded of {}",
                    out, joint.positions.size(), record::write_positions(missing)),
        fmt::format("count what is in the bag, then record the rest: out {}/{}", joint.joint->code,
                    record::write_positions(missing))));
  }
}

void found_empty(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    if (removal.broke != BreakLoose::Empty) return;
    deviations.push_back(flag_position(
        kFoundEmpty, Level::Hold, joint, position.position,
        "the hole was empty before anything was touched",
        "find out whether a fastener belongs there; look for where it went, and get one of the "
        "right size, length and grade"));
  });
}

void break_loose(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    const auto flag = [&](Level level, const char* says, const char* what_to_do) {
      deviations.push_back(
          flag_position(kBreakLoose, level, joint, position.position, says, what_to_do));
    };
    if (removal.broke == BreakLoose::Sheared) {
      flag(Level::Hold, "the fastener sheared",
           "get the rest out, check the thread in the part, and renew the fastener");
    } else if (removal.broke == BreakLoose::AlreadyLoose) {
      flag(Level::Hold, "the fastener was loose before it was touched",
           "look for fretting, a worn seat or a stretched fastener, and compare its siblings");
    } else if (removal.broke == BreakLoose::Seized) {
      flag(Level::Check, "the fastener was seized",
           "clean and check both threads; renew it where the thread is pulled");
    }
  });
}

void damaged_thread(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    if (!removal.damaged_thread) return;
    const bool in_hole = *removal.damaged_thread != record::DamagedThread::Fastener;
    const bool on_fastener = *removal.damaged_thread != record::DamagedThread::Hole;
    deviations.push_back(flag_position(
        kDamagedThread, Level::Hold, joint, position.position,
        fmt::format("the thread {} was found damaged", !in_hole ? "of the fastener"
                                                       : !on_fastener
                                                           ? "in the hole"
                                                           : "of the fastener and in the hole"),
        fmt::format("{}{}", on_fastener ? "renew the fastener; " : "",
                    in_hole ? "repair the hole in the way the maker of the part allows, and try it "
                              "with a new fastener by hand"
                            : "run a good one through the hole by hand before any torque")));
  });
}

void other_fastener(const Case& subject, std::vector<Deviation>& deviations) {
  const finding::OddLengths odd_lengths(subject.survey);
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    const std::string text = finding::other_fastener(*joint.joint, removal);
    if (text.empty()) return;
    const auto partner = odd_lengths.swapped_with(*joint.joint, removal);
    deviations.push_back(flag_position(
        kOtherFastener, Level::Hold, joint, position.position,
        partner ? fmt::format("{}; {} has the length that belongs here: swapped", text, *partner)
                : text,
        "put the right fastener in; a short one holds on too few threads, a long one may bottom "
        "out in a blind hole"));
  });
}

// Some of a joint went into a bag, and of others nobody knows where they are.
void bag_missing(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    std::vector<int> nowhere;
    int bagged = 0;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) continue;
      const auto& removal = position.removal->content;
      if (!removal.bag.empty()) {
        ++bagged;
      } else if (removal.broke != BreakLoose::Empty && removal.broke != BreakLoose::Sheared) {
        nowhere.push_back(position.position);
      }
    }
    if (bagged == 0 || nowhere.empty()) continue;
    deviations.push_back(flag_joint(
        kBagMissing, Level::Check, joint,
        fmt::format("{} of them are in a bag, but no bag is recorded for position {}", bagged,
                    record::write_positions(nowhere)),
        "count what is in the bag against the holes; strike the line and enter it with its bag"));
  }
}

}  // namespace

constinit const Rule kBagMissing{"bag missing",
                                 "fasteners without a bag where their siblings have one",
                                 bag_missing, RestsOn{.removals = true}};
constinit const Rule kCountOut{
    "count out", "positions accounted for, out or found empty, against the joint's count",
    count_out, RestsOn{.removals = true}};
constinit const Rule kFoundEmpty{"found empty", "holes that were empty at teardown", found_empty,
                                 RestsOn{.removals = true}};
constinit const Rule kBreakLoose{"break loose", "fasteners that were loose, sheared or seized",
                                 break_loose, RestsOn{.removals = true}};
constinit const Rule kDamagedThread{"damaged thread",
                                    "threads that were torn, pulled or crossed at teardown",
                                    damaged_thread, RestsOn{.removals = true}};
constinit const Rule kOtherFastener{
    "other fastener", "size, length or grade that is not the joint's; lengths swapped",
    other_fastener, RestsOn{.removals = true}};

}  // namespace audit
