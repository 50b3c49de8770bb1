#include "progress/progress.h"

#include <algorithm>
#include <unordered_map>

#include "progress/torque_limit.h"
#include "record/address.h"
#include "record/concerns.h"
#include "record/current_decisions.h"
#include "record/person.h"

namespace progress {
namespace {

using plan::same_target;
using Stands = Step::Stands;

// No torque is known for it any more, where one had stood in: whatever was set then was that pass.
bool asks_for_any(const plan::TighteningPass& pass, const record::PassTarget& done) {
  return pass.kind == record::PassKind::Torque && !pass.aim && done.kind == pass.kind;
}

// The same torque but for what it takes to run a fastener down: its test was entered, or it was to
// be replaced, after it had been tightened by the plan of that day.
bool same_but_for_running(const plan::TighteningPass& pass, const record::PassTarget& done) {
  if (!pass.aim || !done.torque) return false;
  const auto is = [&](quantity::Torque torque) {
    auto target = plan::target_of(pass);
    target.torque = torque;
    return same_target(target, done);
  };
  const auto& aim = *pass.aim;
  return (aim.running && is(aim.torque - *aim.running)) ||
         (aim.had_running && is(aim.torque + *aim.had_running));
}

// The turn that was read lies outside the window that the step asks for.
bool is_outside_window(const record::Tightening& tightening, const plan::TighteningPass& pass) {
  return tightening.turned && pass.window &&
         (*tightening.turned < pass.window->least || *tightening.turned > pass.window->most);
}

// After it what was tightened before holds nothing any more.
bool lets_go(const record::Tightening& tightening) {
  const auto kind = tightening.target.kind;
  return record::is_work(tightening) &&
         (kind == record::PassKind::Loosen || kind == record::PassKind::Renew);
}

// Two pulls that differ by less come to the same: rounding to marks, another wrench's graduation.
constexpr double kAsMuch = 0.05;

// Torques come through unit conversions; a part in a million is the same torque.
constexpr double kSameAsLeast = 1e-6;

// Done after the position last came out.
bool is_after_removal(const record::Stamp& stamp, const record::Stamp* came_out) {
  return came_out == nullptr || record::is_later(stamp, *came_out);
}

// What the map has there; nothing where it has none.
template <class Map, class Key>
auto* found_in(Map& map, const Key& key) {
  const auto found = map.find(key);
  return found == map.end() ? nullptr : &found->second;
}

}  // namespace

Progress::Progress(const record::Job& job, const plan::ReassemblyPlan& plan)
    : plan_(&plan), apart_(&job.apart), wrenches_(job) {
  for (const auto& joint : plan.joints) {
    auto& places = places_[record::folded_code(joint.state->joint->code)];
    for (std::size_t pass = 0; pass < joint.passes.size(); ++pass) {
      for (const int position : joint.passes[pass].order) {
        places[position].steps.push_back(steps_.size());
        steps_.push_back({&joint, pass, position, Stands::Open, nullptr});
      }
    }
    for (const auto& position : joint.state->positions) {
      if (position.removal == nullptr) continue;
      places[position.position].came_out = &position.removal->stamp;
    }
  }
  go_on_between_passes(job);
  find_broken_off(job);
  std::vector<Event> events;
  const auto gather = [&events](const auto& entries) {
    for (const auto& entry : entries) events.emplace_back(&entry);
  };
  gather(job.tightenings);
  gather(job.stripes);
  gather(job.rechecks);
  gather(job.findings);
  gather(job.pulls);
  std::ranges::sort(events, [](const Event& a, const Event& b) {
    return record::is_earlier(stamp_of(a), stamp_of(b));
  });
  for (const auto& event : events) {
    std::visit(
        [&]<class Content>(const record::Entry<Content>* entry) {
          if constexpr (!std::is_same_v<Content, record::Disposition>) count_everywhere(*entry);
        },
        event);
  }
  count_decisions(job);
}

bool Progress::went_through(const std::vector<std::size_t>& steps,
                            const std::vector<const record::Tightening*>& work) const {
  const auto is_one_of_them = [&](const record::Tightening* done) {
    return std::ranges::any_of(steps, [&](std::size_t step) {
      return same_target(plan::target_of(steps_[step].planned().pass), done->target);
    });
  };
  const auto is_done = [&](std::size_t step) {
    return std::ranges::any_of(work, [&](const record::Tightening* done) {
      return same_target(plan::target_of(steps_[step].planned().pass), done->target);
    });
  };
  return !steps.empty() && std::ranges::all_of(work, is_one_of_them) &&
         std::ranges::all_of(steps, is_done);
}

void Progress::go_on_between_passes(const record::Job& job) {
  const auto renewed_at = [&](const Place& place) {
    return std::ranges::find_if(place.steps, [&](std::size_t step) {
      return steps_[step].planned().pass.kind == record::PassKind::Renew;
    });
  };
  const auto is_asked_about = [&](const Place& place) {
    return place.came_out != nullptr && renewed_at(place) != place.steps.end();
  };
  // What happened at the joints of those alone, so that none goes through all others.
  struct Happened {
    std::vector<const record::Entry<record::Removal>*> removals;
    std::vector<const record::Entry<record::Tightening>*> tightenings;
  };
  std::unordered_map<std::string, Happened> happened;  // by folded code
  for (const auto& [code, places] : places_) {
    const auto is_one_asked = [&](const auto& placed) { return is_asked_about(placed.second); };
    if (std::ranges::any_of(places, is_one_asked)) happened.try_emplace(code);
  }
  if (happened.empty()) return;
  const auto of = [&](const std::string& joint) {
    const auto found = happened.find(record::folded_code(joint));
    return found == happened.end() ? nullptr : &found->second;
  };
  for (const auto& entry : job.removals) {
    if (auto* there = of(entry.content.joint)) there->removals.push_back(&entry);
  }
  for (const auto& entry : job.tightenings) {
    if (auto* there = of(entry.content.joint)) there->tightenings.push_back(&entry);
  }
  const auto go_on = [&](int position, Place& place, const Happened& there) {
    const auto renewed = renewed_at(place);
    const auto is_here = [&](const auto& content) {
      return std::ranges::find(content.positions, position) != content.positions.end();
    };
    const record::Stamp* before = nullptr;
    for (const auto* removal : there.removals) {
      if (!record::is_earlier(removal->stamp, *place.came_out) || !is_here(removal->content)) {
        continue;
      }
      if (before == nullptr || record::is_later(removal->stamp, *before)) before = &removal->stamp;
    }
    std::vector<const record::Tightening*> work;
    for (const auto* entry : there.tightenings) {
      if (!record::is_work(entry->content) || !is_after_removal(entry->stamp, before) ||
          is_after_removal(entry->stamp, place.came_out) || !is_here(entry->content)) {
        continue;
      }
      work.push_back(&entry->content);
    }
    if (went_through({place.steps.cbegin(), renewed}, work)) place.came_out = before;
  };
  for (const auto& [code, there] : happened) {
    for (auto& placed : places_.at(code)) {
      if (is_asked_about(placed.second)) go_on(placed.first, placed.second, there);
    }
  }
}

void Progress::find_broken_off(const record::Job& job) {
  // What happened last at each place before it came out: work, or a stripe drawn on it.
  std::unordered_map<const Place*, const record::Stamp*> striped;
  const auto each_before_out = [&](const auto& entry, auto&& act) {
    auto* places = places_of(entry.content.joint);
    if (places == nullptr) return;
    for (const int position : entry.content.positions) {
      auto* place = found_in(*places, position);
      if (place != nullptr && !is_after_removal(entry.stamp, place->came_out)) act(*place);
    }
  };
  for (const auto& entry : job.stripes) {
    each_before_out(entry, [&](const Place& place) {
      auto& last = striped[&place];
      if (last == nullptr || record::is_later(entry.stamp, *last)) last = &entry.stamp;
    });
  }
  for (const auto& entry : job.tightenings) {
    if (!record::is_work(entry.content)) continue;
    each_before_out(entry, [&](Place& place) {
      const auto stripe = striped.find(&place);
      if (stripe != striped.end() && record::is_later(*stripe->second, entry.stamp)) return;
      if (place.broken_off == nullptr || record::is_later(entry.stamp, place.broken_off->stamp)) {
        place.broken_off = &entry;
      }
    });
  }
  for (auto& of_joint : places_) {
    for (auto& placed : of_joint.second) begin_anew(placed.second);
  }
}

void Progress::begin_anew(Place& place) {
  place.to_restart_at.reset();
  if (place.broken_off == nullptr || place.steps.empty()) return;
  place.to_restart_at = steps_[place.steps.front()].pass_number();
}

void Progress::count_decisions(const record::Job& job) {
  for (const auto& [entry, positions] : record::current_decisions(job)) {
    const auto decision = entry->content.decision;
    const bool was_repaired = decision == record::Decision::Repair && !entry->content.done.empty();
    if (decision != record::Decision::ReTorque && decision != record::Decision::Renew &&
        !was_repaired) {
      continue;
    }
    auto* places = places_of(entry->content.joint);
    if (places == nullptr) continue;
    for (auto& placed : *places) {
      const int position = placed.first;
      auto& place = placed.second;
      if (!positions.empty() && !std::ranges::binary_search(positions, position)) continue;
      // One that stands before the position came out counts where the old one went back in.
      const bool goes_on = decision == record::Decision::Renew && begins_with_new_one(place);
      if (!goes_on && !is_after_removal(entry->stamp, place.came_out)) continue;
      count_event(place, entry, position);
    }
  }
}

const record::Stamp& Progress::stamp_of(const Event& event) {
  return std::visit([](const auto* entry) -> const record::Stamp& { return entry->stamp; }, event);
}

void Progress::count(const record::Entry<record::Tightening>& entry) { count_everywhere(entry); }

template <class Content>
void Progress::count_everywhere(const record::Entry<Content>& entry) {
  if constexpr (std::is_same_v<Content, record::Tightening>) {
    if (wrenches_.lacks(entry.content.wrench)) return;
  }
  auto* places = places_of(entry.content.joint);
  for (const int position : record::positions_named(entry.content)) {
    auto* place = places == nullptr ? nullptr : found_in(*places, position);
    if (place == nullptr) {
      if constexpr (std::is_same_v<Content, record::Tightening>) {
        other_work_.push_back({&entry, position});
      }
    } else if (is_after_removal(entry.stamp, place->came_out)) {
      count_event(*place, &entry, position);
    } else if constexpr (std::is_same_v<Content, record::Tightening>) {
      const bool was_out = entry.stamp.id > place->came_out->id;
      if (was_out && record::is_work(entry.content)) place->dated_before_out.push_back(&entry);
    }
  }
}

void Progress::count_event(Place& place, const Event& event, int position) {
  const auto at = std::ranges::upper_bound(
      place.counted, event,
      [](const Event& a, const Event& b) { return record::is_earlier(stamp_of(a), stamp_of(b)); });
  const bool is_latest = at == place.counted.end();
  place.counted.insert(at, event);
  if (is_latest) {
    count_one(place, event, position);
  } else {
    count_anew(place, position);
  }
}

void Progress::count_one(Place& place, const Event& event, int position) {
  std::visit([&](const auto* entry) { count_at(place, *entry, position); }, event);
  auto& held = place.finish.held;
  const bool had = !held.empty() && held.back().until == nullptr;
  const bool has = has_final_value(place);
  if (has && !had) held.push_back({&stamp_of(event), nullptr});
  if (had && !has) held.back().until = &stamp_of(event);
}

void Progress::count_anew(Place& place, int position) {
  for (const std::size_t number : place.steps) {
    steps_[number].stands = Stands::Open;
    steps_[number].entry = nullptr;
    steps_[number].on_top_of = nullptr;
    steps_[number].done_before_by_other = nullptr;
    steps_[number].to_follow = nullptr;
  }
  place.finish = {};
  begin_anew(place);
  std::erase_if(other_work_, [&](const OtherWork& other) {
    return other.position == position &&
           std::ranges::find(place.counted, Event(other.entry)) != place.counted.end();
  });
  for (const auto& event : place.counted) count_one(place, event, position);
}

void Progress::count_at(Place& place, const record::Entry<record::Tightening>& entry,
                        int position) {
  const auto& done = entry.content;
  if (!done.seen.empty()) place.finish.looked_at = &entry;
  if (done.second_check) {
    place.finish.second_check = &entry;
    if (is_over_torque(done, place)) start_again(place, 0, entry.stamp);
    return;
  }
  if (record::is_work(done) && done.target.kind == record::PassKind::Angle) {
    place.finish.angled = &entry;
  }
  if (record::is_work(done) && done.target.kind == record::PassKind::Renew) {
    place.finish.angled = nullptr;
  }
  const auto number_done = step_done(place, done);
  Step* step = number_done ? &steps_[*number_done] : nullptr;
  if (step == nullptr) {
    // Whatever it was, the stripe and the look of before are not of what stands now.
    if (record::is_work(done)) {
      place.finish.second_check = nullptr;
      place.finish.stripe = nullptr;
    }
    if (lets_go(done)) start_again(place, 0, entry.stamp);
    other_work_.push_back({&entry, position});
    return;
  }
  // What is turned further on top of a wrong turn does not make it right.
  if (place.to_restart_at && step->pass_number() > *place.to_restart_at) return;
  if (place.to_restart_at) lead_on_after(place, entry.stamp, *place.to_restart_at);
  place.to_restart_at.reset();
  if (record::is_skipped(done)) {
    if (step->stands == Stands::Done) return;
    step->stands = Stands::LeftOut;
    step->entry = &entry;
    return;
  }
  // A second person's look is at what stood then, and the stripe stands for it; only the check
  // round once more leaves both.
  const bool is_check_again =
      step->stands == Stands::Done && step->planned().pass.kind == record::PassKind::Check;
  if (!is_check_again) {
    place.finish.second_check = nullptr;
    place.finish.stripe = nullptr;
  }
  const bool is_angle = step->planned().pass.kind == record::PassKind::Angle;
  const bool is_torque = step->planned().pass.kind == record::PassKind::Torque;
  if (step->stands != Stands::Done) {
    step->done_before_by_other = nullptr;
  } else if (is_torque && !record::is_same_person(step->entry->stamp.by, entry.stamp.by)) {
    step->done_before_by_other = step->entry;
  }
  step->on_top_of = is_angle && step->stands == Stands::Done ? step->entry : nullptr;
  if (step->on_top_of != nullptr || is_outside_window(done, step->planned().pass) ||
      is_over_torque(done, place)) {
    start_again(place, step->planned().restart_from, entry.stamp);
  } else {
    step->stands = Stands::Done;
    step->to_follow = nullptr;
  }
  if (lets_go(done) || starts_angles_again(place, *step) ||
      is_less_than_behind(place, *step, done)) {
    reopen_behind(place, *step, entry.stamp);
  }
  step->entry = &entry;
  if (!has_final_value(place)) return;
  place.finish.reached = &entry.stamp;
  place.finish.tested = nullptr;
}

namespace {

void open_again(Step& step, const record::Stamp& by) {
  if (step.stands == Stands::Done) step.to_follow = &by;
  step.stands = Stands::Open;
}

}  // namespace

void Progress::start_again(Place& place, int pass_number, const record::Stamp& by) {
  place.finish.stripe = nullptr;
  for (const std::size_t number : place.steps) {
    Step& step = steps_[number];
    if (step.pass_number() < pass_number) continue;
    open_again(step, by);
    if (!place.to_restart_at) place.to_restart_at = step.pass_number();
  }
}

void Progress::reopen_behind(const Place& place, const Step& step, const record::Stamp& by) {
  for (const std::size_t number : place.steps) {
    if (steps_[number].pass_number() > step.pass_number()) open_again(steps_[number], by);
  }
}

// The pass that had to be done before any later one counts is done by this line.
void Progress::lead_on_after(const Place& place, const record::Stamp& by, int pass_number) {
  for (const std::size_t number : place.steps) {
    Step& step = steps_[number];
    if (step.pass_number() > pass_number && step.stands == Stands::Open) step.to_follow = &by;
  }
}

// A pass done while an angle behind it stands: on what is turned already it would do nothing, so
// that it was slackened and is gone through again.
bool Progress::starts_angles_again(const Place& place, const Step& step) const {
  return std::ranges::any_of(place.steps, [&](std::size_t number) {
    const Step& behind = steps_[number];
    return behind.pass_number() > step.pass_number() && behind.stands == Stands::Done &&
           behind.planned().pass.kind == record::PassKind::Angle;
  });
}

// A pass that was done after one behind it, which had reached more: what held that was undone.
bool Progress::is_less_than_behind(const Place& place, const Step& step,
                                   const record::Tightening& done) const {
  const auto kind = step.planned().pass.kind;
  const auto applied = record::applied_torque(done);
  if (kind != record::PassKind::Snug && !applied) return false;
  return std::ranges::any_of(place.steps, [&](std::size_t number) {
    const Step& behind = steps_[number];
    if (behind.pass_number() <= step.pass_number() || behind.stands != Stands::Done) return false;
    const auto reached = record::applied_torque(behind.entry->content);
    return reached && (!applied || *applied / *reached < 1.0 - kAsMuch);
  });
}

void Progress::count_at(Place& place, const record::Entry<record::FinalStripe>& entry,
                        int /*position*/) {
  place.finish.drawn = &entry;
  if (!has_final_value(place)) return;
  const auto* stood = place.finish.stripe;
  const bool is_of_other =
      stood != nullptr && !record::is_same_person(stood->stamp.by, entry.stamp.by);
  place.finish.striped_before_by_other = is_of_other ? stood : nullptr;
  place.finish.stripe = &entry;
  place.finish.turned = nullptr;
}

void Progress::count_at(Place& place, const record::Entry<record::Recheck>& entry,
                        int /*position*/) {
  if (!entry.content.turned) return;
  place.finish.turned = &entry;
  place.finish.looked_at = nullptr;
  place.finish.second_check = nullptr;
  start_again(place, 0, entry.stamp);
}

void Progress::count_at(Place& place, const record::Entry<record::Measured>& entry,
                        int /*position*/) {
  broken_loose(place, entry.stamp);
}

void Progress::count_at(Place& place, const record::Entry<record::Pull>& entry, int /*position*/) {
  broken_loose(place, entry.stamp);
}

void Progress::broken_loose(Place& place, const record::Stamp& tested) {
  if (!is_begun(place)) return;
  place.finish.tested = &tested;
  place.finish.second_check = nullptr;
  start_again(place, 0, tested);
}

void Progress::count_at(Place& place, const record::Entry<record::Disposition>& entry,
                        int /*position*/) {
  const bool goes_on =
      entry.content.decision == record::Decision::Renew && begins_with_new_one(place);
  if (!goes_on && !is_begun(place)) return;
  place.finish.second_check = nullptr;
  start_again(place, 0, entry.stamp);
}

// Something that its plan asks for has been done.
bool Progress::is_begun(const Place& place) const {
  return std::ranges::any_of(place.steps,
                             [&](std::size_t step) { return steps_[step].entry != nullptr; });
}

// Its plan takes the old one out and puts a new one in before all else.
bool Progress::begins_with_new_one(const Place& place) const {
  if (place.steps.size() < 2) return false;
  return steps_[place.steps[0]].planned().pass.kind == record::PassKind::Loosen &&
         steps_[place.steps[1]].planned().pass.kind == record::PassKind::Renew;
}

bool Progress::is_over_torque(const record::Tightening& tightening, const Place& place) const {
  const auto applied = record::applied_torque(tightening);
  const auto most = torque_limit(steps_at(place));
  return applied && most && *applied > *most;
}

std::vector<const Step*> Progress::steps_at(const Place& place) const {
  std::vector<const Step*> steps;
  for (const std::size_t number : place.steps) steps.push_back(&steps_[number]);
  return steps;
}

std::optional<std::size_t> Progress::step_done(const Place& place,
                                               const record::Tightening& tightening) const {
  std::optional<std::size_t> fitting;
  for (const std::size_t number : place.steps) {
    const Step& step = steps_[number];
    const auto& pass = step.planned().pass;
    if (!same_target(plan::target_of(pass), tightening.target) &&
        !same_but_for_running(pass, tightening.target) && !asks_for_any(pass, tightening.target)) {
      continue;
    }
    if (step.pass_number() == tightening.pass) return number;
    const bool first_open =
        step.stands == Stands::Open && (!fitting || steps_[*fitting].stands != Stands::Open);
    if (!fitting || first_open) fitting = number;
  }
  return fitting;
}

const Step* Progress::next(std::optional<std::string_view> joint) const {
  const Step* open = nullptr;
  const Step* left_out = nullptr;
  const auto look_at = [&](const Step& step) {
    const Step*& first = step.stands == Stands::Open ? open : left_out;
    if (step.stands != Stands::Done && (first == nullptr || &step < first)) first = &step;
  };
  if (joint) {
    if (const auto* places = places_of(*joint)) {
      for (const auto& placed : *places) {
        for (const std::size_t number : placed.second.steps) look_at(steps_[number]);
      }
    }
  } else {
    for (const auto& step : steps_) {
      if (open == nullptr) look_at(step);
    }
  }
  return open != nullptr ? open : left_out;
}

const Progress::Places* Progress::places_of(std::string_view joint) const {
  return found_in(places_, record::folded_code(joint));
}

Progress::Places* Progress::places_of(std::string_view joint) {
  return found_in(places_, record::folded_code(joint));
}

const Progress::Place* Progress::place(std::string_view joint, int position) const {
  const auto* places = places_of(joint);
  return places == nullptr ? nullptr : found_in(*places, position);
}

std::vector<const Step*> Progress::steps_of(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? std::vector<const Step*>{} : steps_at(*found);
}

const Step* Progress::step(std::string_view joint, int pass_number, int position) const {
  for (const auto* step : steps_of(joint, position)) {
    if (step->pass_number() == pass_number) return step;
  }
  return nullptr;
}

bool Progress::has_final_value(const Place& place) const {
  const auto steps = steps_at(place);
  if (steps.empty() || steps.back()->stands != Stands::Done) return false;
  const auto is_done = [](const Step* step) { return step->stands == Stands::Done; };
  // One that turned is slackened and goes through all of its passes.
  if (place.finish.turned != nullptr) return std::ranges::all_of(steps, is_done);
  const auto sets_value = std::find_if(steps.rbegin(), steps.rend(), [](const Step* step) {
    return step->planned().pass.kind != record::PassKind::Check;
  });
  return sets_value == steps.rend() || is_done(*sets_value);
}

bool Progress::has_final_value(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found != nullptr && has_final_value(*found);
}

const record::Entry<record::Tightening>* Progress::ended_below(std::string_view joint,
                                                               int position) const {
  const auto* found = place(joint, position);
  if (found == nullptr || !has_final_value(*found)) return nullptr;
  const auto& aim = steps_at(*found).back()->planned().pass.aim;
  if (!aim || !aim->low) return nullptr;
  for (auto event = found->counted.rbegin(); event != found->counted.rend(); ++event) {
    const auto* work = std::get_if<const record::Entry<record::Tightening>*>(&*event);
    if (work == nullptr || !record::is_work((*work)->content) || !(*work)->content.setting)
      continue;
    const auto applied = record::applied_torque((*work)->content);
    return *applied / *aim->low < 1.0 - kSameAsLeast ? *work : nullptr;
  }
  return nullptr;
}

const Step* Progress::undone_by(const record::Tightening& done, int position) const {
  const auto* found = place(done.joint, position);
  const auto* step = this->step(done.joint, done.pass, position);
  if (found == nullptr || step == nullptr || !record::is_work(done)) return nullptr;
  if (!starts_angles_again(*found, *step) && !is_less_than_behind(*found, *step, done)) {
    return nullptr;
  }
  for (const std::size_t number : found->steps) {
    const Step& behind = steps_[number];
    if (behind.pass_number() > step->pass_number() && behind.stands == Stands::Done) return &behind;
  }
  return nullptr;
}

std::optional<int> Progress::starts_again_at(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? std::nullopt : found->to_restart_at;
}

bool Progress::had_final_value(std::string_view joint, int position,
                               const record::Stamp& moment) const {
  const auto* found = place(joint, position);
  return found != nullptr && std::ranges::any_of(found->finish.held, [&](const Held& held) {
           return record::is_earlier(*held.since, moment) &&
                  (held.until == nullptr || record::is_earlier(moment, *held.until));
         });
}

const record::Stamp* Progress::came_out(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? nullptr : found->came_out;
}

std::vector<const record::Entry<record::Tightening>*> Progress::dated_before_out(
    std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? std::vector<const record::Entry<record::Tightening>*>{}
                          : found->dated_before_out;
}

const record::Stamp* Progress::last_counted(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr || found->counted.empty() ? nullptr : &stamp_of(found->counted.back());
}

std::vector<DatedTooEarly> Progress::dated_too_early(std::string_view joint, int position) const {
  std::vector<DatedTooEarly> early;
  const auto* found = place(joint, position);
  if (found == nullptr) return early;
  const auto has_to_follow = [&](std::size_t number) {
    return steps_[number].stands == Stands::Open && steps_[number].to_follow != nullptr;
  };
  // Nearly every position has none such.
  if (std::ranges::none_of(found->steps, has_to_follow)) return early;
  std::vector<const record::Entry<record::Tightening>*> works;
  for (const auto& event : found->counted) {
    const auto* const* work = std::get_if<const record::Entry<record::Tightening>*>(&event);
    if (work != nullptr && record::is_work((*work)->content)) works.push_back(*work);
  }
  // A look, test or decision is about what was done before it; where nothing of that had been
  // written yet, this is it.
  const auto speaks_of_other = [&](const record::Stamp& line, std::size_t number) {
    return std::ranges::any_of(works, [&](const auto* work) {
      return &work->stamp == &line ||
             (work->stamp.id < line.id && step_done(*found, work->content) == number);
    });
  };
  for (const auto* work : works) {
    const auto number = step_done(*found, work->content);
    if (!number || !has_to_follow(*number)) continue;
    const auto& stamp = work->stamp;
    const auto& follows = *steps_[*number].to_follow;
    const bool is_written_after = stamp.id > follows.id && !apart_->are_apart(stamp, follows);
    if (is_written_after && stamp.done_at < follows.done_at && speaks_of_other(follows, *number)) {
      early.push_back({work, &follows});
    }
  }
  return early;
}

const record::Entry<record::Tightening>* Progress::broken_off(std::string_view joint,
                                                              int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? nullptr : found->broken_off;
}

const record::Entry<record::Tightening>* Progress::spent_by(std::string_view joint,
                                                            int position) const {
  const auto* found = place(joint, position);
  if (found == nullptr || found->finish.angled == nullptr || found->steps.empty()) return nullptr;
  const auto steps = steps_at(*found);
  if (!steps.front()->joint->state->joint->one_time) return nullptr;
  const auto open = std::ranges::find(steps, Stands::Open, &Step::stands);
  if (open == steps.end()) return nullptr;
  const auto kind = (*open)->planned().pass.kind;
  const bool tightens = kind == record::PassKind::Snug || kind == record::PassKind::Torque ||
                        kind == record::PassKind::Angle;
  const auto* angled = found->finish.angled;
  return tightens && (*open)->pass_number() <= angled->content.pass ? angled : nullptr;
}

Finish Progress::finish_of(std::string_view joint, int position) const {
  const auto* found = place(joint, position);
  return found == nullptr ? Finish{} : found->finish;
}

std::vector<const record::Entry<record::Tightening>*> Progress::done_apart(std::string_view joint,
                                                                           int position) const {
  std::vector<const record::Entry<record::Tightening>*> done;
  const auto* at = place(joint, position);
  if (apart_->is_empty() || at == nullptr) return done;
  for (const auto& event : at->counted) {
    const auto* const* work = std::get_if<const record::Entry<record::Tightening>*>(&event);
    if (work == nullptr || !record::is_work((*work)->content)) continue;
    const bool is_apart = std::ranges::any_of(at->steps, [&](std::size_t step) {
      const auto* stands_on = steps_[step].entry;
      return stands_on != nullptr && apart_->are_apart(stands_on->stamp, (*work)->stamp);
    });
    if (is_apart) done.push_back(*work);
  }
  return done;
}

}  // namespace progress
