#include "progress/hold_point_state.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <unordered_map>

#include "record/address.h"

namespace progress {
namespace {

using PointStands = HoldPointState::Stands;
using record::HoldPointMove;

void take(HoldPointState& state, const record::Entry<record::HoldPointStep>& step) {
  state.last_step = &step;
  const auto wait = state.point->wait;
  switch (step.content.move) {
    case HoldPointMove::Begun:
      state.stands = wait ? PointStands::Waiting : PointStands::WaitOver;
      state.open_from = wait ? std::optional(step.stamp.done_at + wait->seconds) : std::nullopt;
      break;
    case HoldPointMove::Passed: {
      const bool wait_is_over =
          !wait || (state.open_from && step.stamp.done_at >= *state.open_from);
      if (wait_is_over) state.stands = PointStands::Passed;
      break;
    }
    case HoldPointMove::Closed:
      state.stands = PointStands::NotBegun;
      state.open_from.reset();
      break;
  }
}

// A begin or a close that was entered before the hold point was put up anew, and is dated after
// what has been done since: it opens nothing of what is in force, but it tells that it was shut
// again.
bool shuts_again(const HoldPointState& state, const record::Entry<record::HoldPointStep>& step,
                 const record::Entry<record::HoldPoint>* in_force) {
  return in_force != nullptr && state.stands != PointStands::NotBegun &&
         step.content.move != HoldPointMove::Passed && step.stamp.id < in_force->stamp.id &&
         !is_before(step.stamp.done_at, in_force->stamp);
}

// Above the id of every line.
constexpr std::string_view kNewLine = "~";

}  // namespace

bool is_before(record::Moment step, const record::Stamp& put_up) {
  return step < std::chrono::floor<std::chrono::minutes>(put_up.done_at);
}

bool HoldPointState::may_have_stood(std::string_view id) const {
  const bool has_own_time = put_up->done_at != put_up->entered_at;
  return is_yet_to_come && !has_own_time && id > put_up->id;
}

HoldPointTimes::HoldPointTimes(const record::Job& job) {
  std::unordered_map<std::string, std::size_t> places;
  for (const auto& entry : job.hold_points) {
    const auto [place, is_first] =
        places.try_emplace(record::folded_code(entry.content.code), lines_.size());
    if (is_first) lines_.emplace_back();
    lines_[place->second].entries.push_back(&entry);
  }
  for (const auto& step : job.hold_point_steps) {
    const auto place = places.find(record::folded_code(step.content.code));
    if (place != places.end()) lines_[place->second].steps.push_back(&step);
  }
  for (auto& line : lines_) {
    std::ranges::sort(line.steps, [](const auto* a, const auto* b) {
      return record::is_earlier(a->stamp, b->stamp);
    });
  }
}

HoldPointState HoldPointTimes::state(const Line& line, record::Moment moment) {
  const record::Entry<record::HoldPoint>* in_force = nullptr;
  for (const auto* entry : line.entries) {
    if (entry->stamp.entered_at <= moment) in_force = entry;
  }
  const auto& first =
      **std::ranges::min_element(line.entries, {}, [](const auto* e) { return e->stamp.done_at; });
  HoldPointState state;
  state.point = in_force == nullptr ? &first.content : &in_force->content;
  state.put_up = &first.stamp;
  state.is_yet_to_come = moment <= first.stamp.done_at;
  for (const auto* step : line.steps) {
    if (step->stamp.done_at > moment) break;
    const bool counts = in_force == nullptr ? !is_before(step->stamp.done_at, first.stamp)
                                            : step->stamp.id > in_force->stamp.id &&
                                                  !is_before(step->stamp.done_at, in_force->stamp);
    if (counts) {
      take(state, *step);
    } else if (shuts_again(state, *step, in_force)) {
      state.stands = PointStands::NotBegun;
      state.open_from.reset();
      state.last_step = step;
    }
  }
  if (state.stands == PointStands::Waiting) {
    if (moment >= *state.open_from) {
      state.stands = PointStands::WaitOver;
    } else {
      state.left.seconds = std::chrono::ceil<std::chrono::seconds>(*state.open_from - moment);
    }
  }
  return state;
}

std::vector<HoldPointState> HoldPointTimes::at(record::Moment moment) const {
  std::vector<HoldPointState> states;
  states.reserve(lines_.size());
  for (const auto& line : lines_) states.push_back(state(line, moment));
  return states;
}

std::vector<HoldPointState> HoldPointTimes::shut_before(std::string_view joint,
                                                        record::Moment moment,
                                                        std::string_view id) const {
  auto states = at(moment);
  std::erase_if(states, [&](const HoldPointState& state) {
    return (!state.is_shut() && !state.may_have_stood(id)) || !guards(*state.point, joint);
  });
  return states;
}

const record::Entry<record::HoldPoint>* HoldPointTimes::in_force(std::string_view code) const {
  for (const auto& line : lines_) {
    if (record::same_code(line.entries.back()->content.code, code)) return line.entries.back();
  }
  return nullptr;
}

std::vector<HoldPointState> hold_points(const record::Job& job, record::Moment moment) {
  return HoldPointTimes(job).at(moment);
}

const HoldPointState* state_of(const std::vector<HoldPointState>& states, std::string_view code) {
  const auto found = std::ranges::find_if(states, [&](const HoldPointState& state) {
    return record::same_code(state.point->code, code);
  });
  return found == states.end() ? nullptr : &*found;
}

bool guards(const record::HoldPoint& point, std::string_view joint) {
  return point.joints.empty() || std::ranges::any_of(point.joints, [&](const std::string& code) {
           return record::same_code(code, joint);
         });
}

std::vector<HoldPointState> in_the_way(const record::Job& job, std::string_view joint,
                                       record::Moment moment) {
  return HoldPointTimes(job).shut_before(joint, moment, kNewLine);
}

std::string command_to_open(const HoldPointState& state) {
  if (state.stands == HoldPointState::Stands::Waiting) return {};
  const bool begins = state.stands == HoldPointState::Stands::NotBegun && state.point->wait;
  return fmt::format("hold-point {} {}", state.point->code, begins ? "--begin" : "--pass");
}

std::string in_words(const HoldPointState& state) {
  auto name = fmt::format("hold point {} ({})", state.point->code, state.point->what);
  if (state.is_yet_to_come) {
    return fmt::format("{} was put up on {} (line {}), and nothing tells whether it stood before",
                       name, record::write_local(state.put_up->done_at), state.put_up->line);
  }
  switch (state.stands) {
    case PointStands::NotBegun:
      return name + (state.point->wait ? " has not been begun" : " has not been passed");
    case PointStands::Waiting:
      return fmt::format("{}: {} of the wait left", name, record::write_rounded(state.left));
    case PointStands::WaitOver:
      return name + ": the wait is over, it has to be proved and passed";
    case PointStands::Passed:
      return name + " is passed";
  }
  return name;
}

}  // namespace progress
