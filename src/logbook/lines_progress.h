#pragma once

#include <cstddef>
#include <functional>

namespace logbook {

// Told how far work on every line or page of a logbook has come: how many steps are coming, where
// that can be told, then after each. There may be fewer, where lines are struck.
struct LinesProgress {
  std::function<void(std::size_t steps)> begin;
  std::function<void()> step;
};

}  // namespace logbook
