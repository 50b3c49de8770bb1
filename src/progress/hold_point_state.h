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
  record::SpanOfTime left;                // of the wait; zero where none runs
  const record::Stamp* put_up = nullptr;  // its first entry
  // Not put up before this moment: work done then was behind nothing. Times are often given to the
  // minute, so that work at the very moment at which it was put up is let pass.
  bool is_yet_to_come = false;

  // True where nothing behind it may be touched.
  [[nodiscard]] bool is_shut() const { return stands != Stands::Passed && !is_yet_to_come; }

  // True where nobody can tell whether it stood when the work of a line was done that was written
  // after it and dated before it: it applies from the time at which it was put up, and that is not
  // known where it was entered without one of its own. `id` is of the line, or above all there are.
  [[nodiscard]] bool may_have_stood(std::string_view id) const;
};

// The hold points of a job over time, told by when things were done and not by when they were
// entered. Begun starts the wait, closed forgets it, passed opens where the wait is over: the clock
// decides. A step done after the moment that is asked for does not count yet. A hold point that is
// entered again has to be passed again: what was entered before that counts only up to then, and
// what was done before that opens it no more, whenever it is entered; a begin or a close from then
// that is dated after a passing of now shuts it all the same.
class HoldPointTimes {
 public:
  // Points into `job`.
  explicit HoldPointTimes(const record::Job& job);

  // Every hold point, in the order of their first entry.
  [[nodiscard]] std::vector<HoldPointState> at(record::Moment moment) const;

  // Those that stood shut before this joint at this moment, or may have when the line with this id
  // was written.
  [[nodiscard]] std::vector<HoldPointState> shut_before(std::string_view joint,
                                                        record::Moment moment,
                                                        std::string_view id) const;

  // The entry of that code that holds now; nothing where there is none.
  [[nodiscard]] const record::Entry<record::HoldPoint>* in_force(std::string_view code) const;

 private:
  struct Line {
    std::vector<const record::Entry<record::HoldPoint>*> entries;    // in the order of their ids
    std::vector<const record::Entry<record::HoldPointStep>*> steps;  // in the order done
  };
  [[nodiscard]] static HoldPointState state(const Line& line, record::Moment moment);

  std::vector<Line> lines_;
};

// Every hold point of the job as it stands at this moment (HoldPointTimes).
[[nodiscard]] std::vector<HoldPointState> hold_points(const record::Job& job,
                                                      record::Moment moment);

// The state of that code in any case of letters; nullptr where there is none.
[[nodiscard]] const HoldPointState* state_of(const std::vector<HoldPointState>& states,
                                             std::string_view code);

// True where this hold point stands before this joint.
[[nodiscard]] bool guards(const record::HoldPoint& point, std::string_view joint);

// The hold points that stood shut before this joint at this moment, or may have, for a line that is
// written now.
[[nodiscard]] std::vector<HoldPointState> in_the_way(const record::Job& job, std::string_view joint,
                                                     record::Moment moment);

// Whether a step dated so comes before this entry of the hold point, which it cannot open then.
// Times are often given to the minute: a step of the minute in which it was put up comes after it.
[[nodiscard]] bool is_before(record::Moment step, const record::Stamp& put_up);

// The command by which a shut one is opened, or its wait begun; empty while that runs.
[[nodiscard]] std::string command_to_open(const HoldPointState& state);

// "HV, store discharged: 7 min 12 s of the wait are left", "... has not been begun".
[[nodiscard]] std::string in_words(const HoldPointState& state);

}  // namespace progress
