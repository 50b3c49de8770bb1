#include "dialogue/hold_point_wait.h"

#include <fmt/format.h>

#include "words/text.h"

namespace dialogue {

void watch_wait(const progress::HoldPointState& state, const terminal::Session& session) {
  using std::chrono::milliseconds;
  using std::chrono::seconds;
  if (!state.open_from) return;
  const auto heading = fmt::format("hold point {}: ", state.point->code);
  std::size_t shown = 0;
  while (true) {
    const auto left = *state.open_from - session.done_at();
    if (left <= milliseconds(0)) break;
    const auto whole = std::chrono::ceil<seconds>(left);
    const auto line = fmt::format("{}{} of the wait left", heading, record::write_rounded({whole}));
    // Blanks wipe what is left of a longer line before.
    session.out() << '\r' << words::padded_right(line, shown) << std::flush;
    shown = words::display_width(line);
    // To the next full second, so that no second is left out however long the rest takes.
    session.pause(left - (whole - seconds(1)));
  }
  if (shown > 0) session.out() << '\r' << words::padded_right("", shown) << '\r' << std::flush;
}

}  // namespace dialogue
