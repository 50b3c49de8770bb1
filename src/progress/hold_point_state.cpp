#include "progress/hold_point_state.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/address.h"

namespace progress {
namespace {

using PointStands = HoldPointState::Stands;
using record::HoldPointMove;

// Where that code stands among the states; their number where it is not among them.
std::size_t place_of(const std::vector<HoldPointState>& states, std::string_view code) {
  const auto found = std::ranges::find_if(states, [&](const HoldPointState& state) {
    return record::same_code(state.point->code, code);
  });
  return static_cast<std::size_t>(found - states.begin());
}

}  // namespace

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

std::vector<HoldPointState> hold_points(const record::Job& job, record::Moment now) {
  std::vector<HoldPointState> states;
  std::vector<const record::Stamp*> entered;
  for (const auto& entry : job.hold_points) {
    const auto place = place_of(states, entry.content.code);
    if (place < states.size()) {
      states[place].point = &entry.content;
      entered[place] = &entry.stamp;
    } else {
      states.emplace_back().point = &entry.content;
      entered.push_back(&entry.stamp);
    }
  }
  for (const auto& step : job.hold_point_steps) {
    const auto place = place_of(states, step.content.code);
    if (place == states.size() || step.stamp.id < entered[place]->id) continue;
    take(states[place], step);
  }
  for (auto& state : states) {
    if (state.stands != PointStands::Waiting) continue;
    if (now >= *state.open_from) {
      state.stands = PointStands::WaitOver;
    } else {
      state.left.seconds = std::chrono::ceil<std::chrono::seconds>(*state.open_from - now);
    }
  }
  return states;
}

const HoldPointState* state_of(const std::vector<HoldPointState>& states, std::string_view code) {
  const auto place = place_of(states, code);
  return place < states.size() ? &states[place] : nullptr;
}

bool guards(const record::HoldPoint& point, std::string_view joint) {
  return point.joints.empty() || std::ranges::any_of(point.joints, [&](const std::string& code) {
           return record::same_code(code, joint);
         });
}

std::vector<HoldPointState> in_the_way(const record::Job& job, std::string_view joint,
                                       record::Moment now) {
  auto states = hold_points(job, now);
  std::erase_if(states, [&](const HoldPointState& state) {
    return state.stands == PointStands::Passed || !guards(*state.point, joint);
  });
  return states;
}

std::string in_words(const HoldPointState& state) {
  auto name = fmt::format("hold point {} ({})", state.point->code, state.point->what);
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
