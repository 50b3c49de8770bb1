#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "record/job.h"

namespace progress {

// A hold point as it stands at one moment.
struct HoldPointState {
  enum class Stands { NotBegun, Waiting, WaitOver, Passed };
  const record::HoldPoint* point = nullptr;
  Stands stands = Stands::NotBegun;
  std::optional<record::Moment> open_from;  // when the wait ends; nothing where none runs
  const record::Entry<record::HoldPointStep>* last_step = nullptr;  // may be none
  record::SpanOfTime left;  // of the wait; zero where none runs
};

// A step taken on the clock: begun starts the wait, closed forgets it, passed opens where the wait
// is over.
void take(HoldPointState& state, const record::Entry<record::HoldPointStep>& step);

// Every hold point of the job, each by its latest entry, in the order of their first; only steps
// after that entry count. A passing that was recorded before the wait was over counts as waiting:
// the clock decides.
[[nodiscard]] std::vector<HoldPointState> hold_points(const record::Job& job, record::Moment now);

// The state of that code in any case of letters; nullptr where there is none.
[[nodiscard]] const HoldPointState* state_of(const std::vector<HoldPointState>& states,
                                             std::string_view code);

// True where this hold point stands before this joint.
[[nodiscard]] bool guards(const record::HoldPoint& point, std::string_view joint);

// The hold points that stand before this joint and have not been passed.
[[nodiscard]] std::vector<HoldPointState> in_the_way(const record::Job& job, std::string_view joint,
                                                     record::Moment now);

// "HV, store discharged: 7 min 12 s of the wait are left", "... has not been begun".
[[nodiscard]] std::string in_words(const HoldPointState& state);

}  // namespace progress
