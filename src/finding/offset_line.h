#pragma once

#include <optional>
#include <string_view>

#include "quantity/angle.h"
#include "quantity/length.h"
#include "quantity/torque.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace finding {

// An offset is read to the nearest degree: the half-width of a rectangle. Own assumption.
inline const quantity::Angle kOffsetResolution = quantity::Angle::degrees(0.5);

// An offset in mm to the nearest millimetre, the same of it. Own assumption.
inline const quantity::Length kOffsetResolutionAtRadius = quantity::Length::millimetres(0.5);

// What bounds an honest reading of a test.
struct ReadingLimits {
  const record::Wrench& wrench;
  quantity::Angle mark_error;
  quantity::Torque steepest;  // torque per degree that the fastener can have at most
};

// Where the line torque against mark offset meets offset 0.
struct OffsetLine {
  quantity::Torque at_mark;     // the line's torque at offset 0
  quantity::Torque half_width;  // of its 95 % interval: Student's t and the reading's resolution
  quantity::Torque per_degree;  // how fast torque rises as the mark closes; above zero
};

// What became of the offsets of a test. All but the first three tell why no line was used.
enum class LineUse {
  NoOffsets,       // none was noted
  Used,            // the finding is the line's
  NotNarrower,     // sound, but its interval is no narrower than the bracket
  OutsideBracket,  // sound, but its estimate contradicts the bracket
  TooFew,          // fewer than three readings with an offset, or all at one offset
  NotRising,       // torque does not rise as the mark closes
  Scattered,       // r² below 0.9
  TooFar,          // offset 0 lies farther outside the offsets than half their span
  TooSteep,        // torque rises faster than the fastener can make it rise
  Outlier,         // one reading lies farther off the line than wrench and mark explain
  Stuck,           // the fastener stood still at one of the pulls
};

// The reason in words for a person; empty for NoOffsets and Used.
[[nodiscard]] std::string_view why_of(LineUse use);

// The line through the readings that have an offset (`on` without one counts as 0°), torque as
// applied at the fastener, by least squares (line_fit.h). It is sound where all of these hold:
//   three readings or more         two points always lie on a line; the third tests it
//   torque rises as the mark closes        else it is not tightening that was seen
//   and no faster than `steepest`  else stick and slip or a misread offset made it so
//   r² >= 0.9                      else a tenth of the variation and more is stick and slip
//   0 at most half the span of the offsets away from the nearest one: the line is only known to
//                                  be straight where there are readings, and its error grows with
//                                  the distance
//   each reading off the line by no more than the wrench's permissible deviation there plus the
//                                  mark error: what is more is no error of reading
//   no `no-move` after the first of them: a pull that moved nothing read static friction
// The interval holds the scatter about the line and the resolution of the offsets:
//   half-width = √[(t s(a))² + (1.96 kOffsetResolution/√3 · slope · s(a)/s)²]
// since readings that lie on a line by chance were still read to the degree. The limits 0.9 and one
// half are this program's own choice. Where it is not sound, `use` says why
// and `line` is absent.
struct OffsetLineResult {
  std::optional<OffsetLine> line;
  LineUse use = LineUse::NoOffsets;  // Used where there is a line
};
[[nodiscard]] OffsetLineResult offset_line(const record::Measured& measured,
                                           const ReadingLimits& limits);

}  // namespace finding
