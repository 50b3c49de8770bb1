#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "record/in_job.h"
#include "record/span_of_time.h"
#include "record/word.h"

namespace record {

// A gate for safety: nothing behind it is loosened or tightened until a named person has passed it.
struct HoldPoint {
  std::string code;
  std::string what;                 // what has to be proved, in the fitter's words
  std::optional<SpanOfTime> wait;   // from begin, such as the discharge of a high-voltage store
  std::vector<std::string> joints;  // behind it; empty for all

  bool operator==(const HoldPoint&) const = default;
};
template <>
struct InJob<HoldPoint> {
  std::vector<Entry<HoldPoint>> hold_points;
};

// What was done about a hold point. Begun: the wait runs from here. Passed: proved and open.
// Closed: shut again, as when the power came back.
enum class HoldPointMove { Begun, Passed, Closed };
template <>
struct Vocabulary<HoldPointMove> {
  static constexpr std::array kWords = {Word{HoldPointMove::Begun, "begun"},
                                        Word{HoldPointMove::Passed, "passed"},
                                        Word{HoldPointMove::Closed, "closed"}};
};
struct HoldPointStep {
  std::string code;
  HoldPointMove move = HoldPointMove::Begun;
  std::string note;  // how it was proved
};
template <>
struct InJob<HoldPointStep> {
  std::vector<Entry<HoldPointStep>> hold_point_steps;
};

}  // namespace record
