#include "finding/grade.h"

#include <algorithm>

namespace finding {
namespace {

using record::BreakLoose;
using record::Mark;

bool wider_than(const Circumstances& c, double share) {
  const auto half_width = c.torque.relative_half_width();
  return half_width && is_wider_than(*half_width, share);
}

bool reached(const record::SettingReading& reading) { return record::reached(reading.mark); }

// The readings that decide the bracket: the first on or past and the one before it, or the last.
// Of a line every reading with an offset decides.
template <class Objection>
bool any_deciding_setting(const Circumstances& c, Objection&& objectionable) {
  if (c.wrench == nullptr) return false;
  const auto& readings = c.measured.readings;
  if (c.torque.basis == Basis::Line &&
      std::ranges::any_of(readings, [&](const record::SettingReading& reading) {
        return reading.offset && objectionable(reading.setting);
      })) {
    return true;
  }
  const auto at = std::ranges::find_if(readings, reached);
  const auto last = at == readings.end() ? readings.end() - 1 : at;
  const auto first = last == readings.begin() ? last : last - 1;
  return objectionable(first->setting) || objectionable(last->setting);
}

bool out_of_range(const Circumstances& c) {
  return any_deciding_setting(c, [&](double setting) {
    return !record::in_range(*c.wrench, quantity::StatedTorque{setting, c.measured.unit});
  });
}

bool between_marks(const Circumstances& c) {
  return any_deciding_setting(
      c, [&](double setting) { return is_between_marks(c.measured, *c.wrench, setting); });
}

bool no_move_just_before_the_mark(const Circumstances& c) {
  const auto& readings = c.measured.readings;
  const auto jump = std::ranges::adjacent_find(readings, [](const auto& before, const auto& at) {
    return before.mark == Mark::NoMove && reached(at);
  });
  return jump != readings.end();
}

// The line reaches for the mark from one side alone.
bool extrapolated(const Circumstances& c) {
  const auto& readings = c.measured.readings;
  return c.torque.basis == Basis::Line &&
         (std::ranges::all_of(readings, reached) || std::ranges::none_of(readings, reached));
}

bool broke_as(const Circumstances& c, BreakLoose how) { return c.broke && *c.broke == how; }

}  // namespace

bool is_between_marks(const record::Measured& measured, const record::Wrench& wrench,
                      double setting) {
  return wrench.kind != record::WrenchKind::Indicating && measured.unit == wrench.scale.unit &&
         !record::on_mark(wrench, setting);
}

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
      {"wrench struck", Grade::X,
       "its wrench is no longer in the logbook, so neither scale nor accuracy is known",
       "enter the wrench again: wrench NAME --range ... --graduation ...",
       [](const Circumstances& c) { return c.wrench == nullptr; }},
      {"out of range", Grade::X,
       "a deciding setting lies outside the wrench's usable range, where it has no stated accuracy",
       "use a wrench whose range covers the setting", out_of_range},
      {"threadlocker", Grade::C,
       "threadlocker or its residue held the fastener: the torque is the adhesive's as well",
       "rely on the specification",
       [](const Circumstances& c) { return c.condition == fastener::Condition::Threadlocker; }},
      {"calibration not valid", Grade::C, "the wrench was out of calibration on the day",
       "check the wrench against one in calibration",
       [](const Circumstances& c) {
         return c.wrench != nullptr && record::is_out_of_calibration(*c.wrench, c.day);
       }},
      {"one bound only", Grade::C, "the readings give one bound, not a bracket",
       "start lower, or go on until the mark lines up",
       [](const Circumstances& c) { return !c.torque.best; }},
      {"wide bracket", Grade::C, "the bracket or interval is wider than ±8 %",
       "use smaller steps near the mark, and note how far it stands off",
       [](const Circumstances& c) { return wider_than(c, kFairHalfWidth); }},
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
      {"fair bracket", Grade::B, "the bracket or interval is wider than ±4 %",
       "use smaller steps near the mark, and note how far it stands off",
       [](const Circumstances& c) {
         return wider_than(c, kFineHalfWidth) && !wider_than(c, kFairHalfWidth);
       }},
      {"extrapolated", Grade::B,
       "the line through the offsets reaches for the mark from one side alone",
       "start below the mark and go on until it lines up", extrapolated},
      {"clicked without moving", Grade::B,
       "the wrench clicked before the fastener moved, with each pull starting from rest",
       "back it off again before each pull",
       [](const Circumstances& c) {
         return c.measured.restart == record::Restart::Stacked &&
                !no_move_just_before_the_mark(c) &&
                std::ranges::any_of(c.measured.readings,
                                    [](const auto& r) { return r.mark == Mark::NoMove; });
       }},
      {"between marks", Grade::B,
       "a deciding setting lies between two marks of the wrench's scale, so it was estimated",
       "set the wrench to a mark of its scale", between_marks},
      {"neighbours slack", Grade::B, "the other fasteners of the joint were slack",
       "test each fastener while its neighbours still hold the part",
       [](const Circumstances& c) { return c.measured.neighbours == record::Neighbours::Slack; }},
      {"broke tight", Grade::B, "it broke loose tight: rust, paint or adhesive may have held it",
       "clean thread and face before the test",
       [](const Circumstances& c) { return broke_as(c, BreakLoose::Tight); }},
      {"calibration unknown", Grade::B, "the wrench has no calibration on record",
       "enter its calibration: wrench NAME --calibrated DAY",
       [](const Circumstances& c) { return c.wrench != nullptr && !c.wrench->calibrated; }},
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
