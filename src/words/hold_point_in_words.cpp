#include "words/hold_point_in_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace words {
namespace {

using progress::HoldPointState;
using Stands = HoldPointState::Stands;

}  // namespace

std::string what_is_behind(const record::HoldPoint& point) {
  return point.joints.empty() ? "all joints" : fmt::format("{}", fmt::join(point.joints, ", "));
}

std::string how_it_stands(const HoldPointState& state) {
  const auto& point = *state.point;
  switch (state.stands) {
    case Stands::NotBegun:
      if (state.last_step != nullptr &&
          state.last_step->content.move == record::HoldPointMove::Closed) {
        const auto& [stamp, step] = *state.last_step;
        return fmt::format("closed again by {}, {}{}; to work behind it again: hold-point {} {}",
                           stamp.by, record::write_local(stamp.done_at),
                           step.note.empty() ? "" : ": " + step.note, point.code,
                           point.wait ? "--begin" : "--pass");
      }
      return point.wait
                 ? fmt::format("not begun; hold-point {} --begin starts the wait of {}", point.code,
                               record::write_exact(*point.wait))
                 : fmt::format("not passed; once it is proved: hold-point {} --pass", point.code);
    case Stands::Waiting:
      return fmt::format("waiting: {} left, to {}", record::write_rounded(state.left),
                         record::write_local(*state.open_from));
    case Stands::WaitOver:
      return fmt::format("the wait is over; once it is proved: hold-point {} --pass", point.code);
    case Stands::Passed:
      break;
  }
  const auto& step = *state.last_step;
  return fmt::format("passed by {}, {}{}", step.stamp.by, record::write_local(step.stamp.done_at),
                     step.content.note.empty() ? "" : ": " + step.content.note);
}

}  // namespace words
