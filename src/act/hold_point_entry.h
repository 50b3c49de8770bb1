#pragma once

#include <string>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "progress/hold_point_state.h"

namespace act {

// A hold point, or a step taken at one, as typed.
struct HoldPointWords {
  std::string code;
  std::string what;
  std::string wait;
  std::vector<std::string> before;  // the joints behind it; else all
  bool begin = false;               // at most one of these three
  bool pass = false;
  bool close = false;
  std::string note;
  Correction correction;
};

// The hold point of this code. Refusal, with the nearest known one, where there is none.
[[nodiscard]] const progress::HoldPointState& hold_point_or_refuse(
    const std::vector<progress::HoldPointState>& states, const std::string& code);

// "J06 is behind a hold point: ..." with each that stood shut before the joint at this moment;
// empty where none did.
[[nodiscard]] std::string behind_hold_point(const record::Job& job, const std::string& joint,
                                            record::Moment moment);

// Refusal with that where the work is done now. What was done earlier has happened: it is recorded,
// the audit flags it, and the remark that says so is returned (none where all stood open then).
std::vector<std::string> check_hold_points(const record::Job& job, const std::string& joint,
                                           record::Moment done_at, record::Moment now);

// Records a new hold point, or a step at one: that its wait begins, that it is passed, or that it
// is shut again. What replaces an earlier line keeps of it what is not stated anew. Refusal where
// one of that code is there already, where it does not stand so that the step can follow, or where
// the step is dated ahead of the clock; UsageError where the words say neither.
Done record_hold_point(logbook::Logbook& logbook, const logbook::Writer& writer,
                       const HoldPointWords& words);

}  // namespace act
