#include "finding/grade.h"

#include <algorithm>

namespace finding {
namespace {

using record::BreakLoose;
using record::Calibration;
using record::Mark;

// The bracket's half-width over its middle; nothing for a bound.
std::optional<double> relative_half_width(const FoundTorque& torque) {
  if (!torque.best) return std::nullopt;
  return (*torque.high - *torque.low) / 2.0 / *torque.best;
}

bool wider_than(const Circumstances& c, double share) {
  const auto half_width = relative_half_width(c.torque);
  return half_width && *half_width > share;
}

// The readings that decide the bracket: the first on or past and the one before it, or the last.
bool any_deciding_reading_out_of_range(const Circumstances& c) {
  const auto& readings = c.measured.readings;
  const auto reached = std::ranges::find_if(
      readings, [](const auto& r) { return r.mark == Mark::On || r.mark == Mark::Past; });
  const auto last = reached == readings.end() ? readings.end() - 1 : reached;
  const auto first = last == readings.begin() ? last : last - 1;
  const auto in_range = [&](const record::SettingReading& reading) {
    return record::in_range(c.wrench, quantity::StatedTorque{reading.setting, c.measured.unit});
  };
  return !in_range(*first) || !in_range(*last);
}

bool no_move_just_before_the_mark(const Circumstances& c) {
  const auto& readings = c.measured.readings;
  const auto jump = std::ranges::adjacent_find(readings, [](const auto& before, const auto& at) {
    return before.mark == Mark::NoMove && (at.mark == Mark::On || at.mark == Mark::Past);
  });
  return jump != readings.end();
}

bool broke_as(const Circumstances& c, BreakLoose how) { return c.broke && *c.broke == how; }

}  // namespace

char letter_of(Grade grade) { return "ABCX"[static_cast<std::size_t>(grade)]; }

const std::vector<GradeRule>& grade_rules() {
  static const std::vector<GradeRule> rules = {
      {"no mark", Grade::X, "no teardown mark was drawn, so there was nothing to line up",
       "draw the mark across fastener and part before anything moves",
       [](const Circumstances& c) { return !c.marked; }},
      {"hole empty", Grade::X, "the hole was found empty", "check which position was meant",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::Empty); }},
      {"sheared", Grade::X, "the fastener sheared, so it could not be tightened again",
       "rely on its neighbours",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::Sheared); }},
      {"out of range", Grade::X,
       "a deciding setting lies outside the wrench's usable range, where it has no stated accuracy",
       "use a wrench whose range covers the setting", any_deciding_reading_out_of_range},
      {"threadlocker", Grade::C,
       "threadlocker or its residue held the fastener: the torque is the adhesive's as well",
       "rely on the specification",
       [](const Circumstances& c) { return c.condition == fastener::Condition::Threadlocker; }},
      {"calibration not valid", Grade::C, "the wrench was out of calibration on the day",
       "check the wrench against one in calibration",
       [](const Circumstances& c) {
         const auto state = record::calibration_on(c.wrench, c.day);
         return state == Calibration::Expired || state == Calibration::NotYet;
       }},
      {"one bound only", Grade::C, "the readings give one bound, not a bracket",
       "start lower, or go on until the mark lines up",
       [](const Circumstances& c) { return c.torque.basis != Basis::Bracket; }},
      {"wide bracket", Grade::C, "the bracket is wider than ±8 %",
       "use smaller steps near the mark",
       [](const Circumstances& c) { return wider_than(c, 0.08); }},
      {"jumped", Grade::C,
       "the fastener stuck at the setting before and then jumped: static friction was read",
       "back it off again before each pull, so that it moves as it meets the mark",
       no_move_just_before_the_mark},
      {"already loose", Grade::C,
       "it was loose before it was touched: the mark shows where it stood, not that it held",
       "rely on its neighbours",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::AlreadyLoose); }},
      {"seized", Grade::C, "it broke loose seized: friction is not what it was at assembly",
       "clean thread and face, and rely on its neighbours",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::Seized); }},
      {"fair bracket", Grade::B, "the bracket is wider than ±4 %",
       "use smaller steps near the mark",
       [](const Circumstances& c) { return wider_than(c, 0.04) && !wider_than(c, 0.08); }},
      {"clicked without moving", Grade::B,
       "the wrench clicked before the fastener moved, with each pull starting from rest",
       "back it off again before each pull",
       [](const Circumstances& c) {
         return c.measured.restart == record::Restart::Stacked &&
                !no_move_just_before_the_mark(c) &&
                std::ranges::any_of(c.measured.readings,
                                    [](const auto& r) { return r.mark == Mark::NoMove; });
       }},
      {"neighbours slack", Grade::B, "the other fasteners of the joint were slack",
       "test each fastener while its neighbours still hold the part",
       [](const Circumstances& c) { return c.measured.neighbours == record::Neighbours::Slack; }},
      {"broke tight", Grade::B, "it broke loose tight: rust, paint or adhesive may have held it",
       "clean thread and face before the test",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::Tight); }},
      {"calibration unknown", Grade::B, "the wrench has no calibration on record",
       "enter its calibration: wrench NAME --calibrated DAY",
       [](const Circumstances& c) {
         return record::calibration_on(c.wrench, c.day) == Calibration::Unknown;
       }},
  };
  return rules;
}

Graded grade(const Circumstances& circumstances) {
  Graded graded;
  for (const auto& rule : grade_rules()) {
    if (!rule.applies(circumstances)) continue;
    graded.grade = std::max(graded.grade, rule.at_most);
    graded.rules.push_back(&rule);
  }
  return graded;
}

}  // namespace finding
