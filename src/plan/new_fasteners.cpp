#include "plan/new_fasteners.h"

#include <algorithm>
#include <vector>

#include "finding/joint_index.h"
#include "record/address.h"
#include "record/current_decisions.h"

namespace plan {
namespace {

struct Event {
  // TightenedOld: a pass of the old ones, where new ones come in by a pass of their own.
  enum class What { Arrived, CameOut, Tightened, TightenedOld, Replaced };
  What what = What::Arrived;
  const record::Stamp* stamp = nullptr;
};

// A pass that fits a new one.
bool is_replacement(const record::Tightening& tightening) {
  return record::is_work(tightening) && tightening.target.kind == record::PassKind::Renew;
}

NewFastener told(const std::vector<Event>& events) {
  enum class Hole { First, Empty, Old, New };
  NewFastener fastener;
  Hole hole = Hole::First;
  const record::Stamp* back = nullptr;
  for (const auto& event : events) {
    switch (event.what) {
      case Event::What::Arrived:
        fastener.arrived = event.stamp;
        fastener.is_ready = true;
        break;
      case Event::What::CameOut:
        hole = Hole::Empty;
        fastener.old_in = nullptr;
        break;
      case Event::What::Replaced:
        hole = Hole::New;
        fastener.went_in = event.stamp;
        fastener.is_ready = false;
        break;
      case Event::What::TightenedOld:
        if (hole == Hole::Empty) hole = Hole::Old;
        break;
      case Event::What::Tightened:
        if (hole == Hole::First && fastener.is_ready) fastener.beside_the_old = true;
        if (hole != Hole::Empty) break;
        hole = fastener.is_ready ? Hole::New : Hole::Old;
        back = event.stamp;
        if (hole == Hole::New) {
          fastener.went_in = event.stamp;
        } else {
          fastener.old_in = event.stamp;
        }
        fastener.is_ready = false;
        break;
    }
  }
  fastener.is_in = hole == Hole::New;
  if (hole == Hole::Old && fastener.is_ready) fastener.old_went_back = back;
  return fastener;
}

bool fits_new_between(const finding::JointState& joint, int position) {
  const auto* specified = joint.at(position).specified;
  return specified != nullptr &&
         std::ranges::any_of(specified->procedure.steps, [](const auto& step) {
           return std::holds_alternative<record::RenewStep>(step);
         });
}

// The positions for which a new one was decided.
std::vector<std::pair<const finding::JointState*, int>> decided_new(
    const record::Job& job, const finding::JointIndex& joints) {
  std::vector<std::pair<const finding::JointState*, int>> places;
  for (const auto& [entry, named] : record::current_decisions(job)) {
    if (entry->content.decision != record::Decision::Renew) continue;
    const auto* joint = joints.find(entry->content.joint);
    if (joint == nullptr) continue;
    for (const auto& position : joint->positions) {
      if (named.empty() || std::ranges::binary_search(named, position.position)) {
        places.emplace_back(joint, position.position);
      }
    }
  }
  return places;
}

}  // namespace

NewFasteners::NewFasteners(const record::Job& job, const finding::Survey& survey) {
  const finding::JointIndex joints(survey);
  std::map<std::pair<std::string, int>, std::vector<Event>> events;
  for (const auto& [joint, position] : decided_new(job, joints)) {
    events[{record::folded_code(joint->joint->code), position}];
  }
  for (const auto& entry : job.renewals) {
    for (const int position : entry.content.positions) {
      events[{record::folded_code(entry.content.joint), position}].push_back(
          {Event::What::Arrived, &entry.stamp});
    }
  }
  for (const auto& entry : job.tightenings) {
    if (!is_replacement(entry.content)) continue;
    for (const int position : entry.content.positions) {
      events[{record::folded_code(entry.content.joint), position}];
    }
  }
  if (events.empty()) return;
  const auto add = [&](const auto& entry, Event::What what) {
    auto of_joint = std::pair(record::folded_code(entry.content.joint), 0);
    const auto first = events.lower_bound(of_joint);
    if (first == events.end() || first->first.first != of_joint.first) return;
    for (const int position : entry.content.positions) {
      of_joint.second = position;
      const auto place = events.find(of_joint);
      if (place != events.end()) place->second.push_back({what, &entry.stamp});
    }
  };
  for (const auto& entry : job.removals) add(entry, Event::What::CameOut);
  for (const auto& entry : job.tightenings) {
    if (!record::is_work(entry.content)) continue;
    if (entry.content.target.kind == record::PassKind::Loosen) continue;
    add(entry, is_replacement(entry.content) ? Event::What::Replaced : Event::What::Tightened);
  }
  for (auto& [place, of_place] : events) {
    const auto* joint = joints.find(place.first);
    const bool is_position = joint != nullptr && place.second <= joint->joint->count;
    if (is_position && fits_new_between(*joint, place.second)) {
      for (auto& event : of_place) {
        if (event.what == Event::What::Tightened) event.what = Event::What::TightenedOld;
      }
    }
    std::ranges::sort(of_place, [](const Event& a, const Event& b) {
      return record::is_earlier(*a.stamp, *b.stamp);
    });
    places_[place] = told(of_place);
  }
}

const NewFastener& NewFasteners::at(std::string_view joint, int position) const {
  static const NewFastener kNone;
  const auto found = places_.find({record::folded_code(joint), position});
  return found == places_.end() ? kNone : found->second;
}

}  // namespace plan
