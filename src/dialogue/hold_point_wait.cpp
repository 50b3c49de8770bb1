#include "dialogue/hold_point_wait.h"

#include <fmt/format.h>

#include "terminal/inert_stream.h"

namespace dialogue {

void watch_wait(const progress::HoldPointState& state, const terminal::Session& session) {
  using std::chrono::milliseconds;
  using std::chrono::seconds;
  if (!state.open_from) return;
  const auto heading = fmt::format("hold point {}: ", state.point->code);
  bool is_shown = false;
  while (true) {
    const auto left = *state.open_from - session.done_at();
    if (left <= milliseconds(0)) break;
    const auto whole = std::chrono::ceil<seconds>(left);
    session.out() << terminal::kStartOverLine << heading << record::write_rounded({whole})
                  << " of the wait left" << std::flush;
    is_shown = true;
    // To the next full second, so that no second is left out however long the rest takes.
    session.pause(left - (whole - seconds(1)));
  }
  if (is_shown) session.out() << terminal::kStartOverLine << std::flush;
}

}  // namespace dialogue
