#include "screen/tolerance_strip.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace screen {
namespace {

using quantity::Torque;

struct Axis {
  double from = 0.0;  // N·m
  double to = 0.0;
};

Axis axis_of(const record::ToleranceWindow& window) {
  assert(window.low || window.high);
  if (window.low && window.high) {
    const double low = window.low->in_newton_metres();
    const double high = window.high->in_newton_metres();
    const double beyond = (high - low) / 2.0;
    return {low - beyond, high + beyond};
  }
  const double limit = (window.low ? *window.low : *window.high).in_newton_metres();
  return {limit / 2.0, limit * 1.5};
}

class Strip {
 public:
  Strip(const Axis& axis, std::size_t width) : axis_(axis), cells_(width, '.') {}

  // The columns from one torque to the other, where they lie on the strip.
  void fill(double from, double to, char c) {
    const auto last = static_cast<double>(cells_.size() - 1);
    const auto first = std::max(0.0, column(from));
    for (auto at = first; at <= std::min(last, column(to)); ++at) {
      cells_[static_cast<std::size_t>(at)] = c;
    }
  }

  // One sign at a torque, or an arrow at the end beyond which it lies.
  void put(double torque, char c) {
    const double at = column(torque);
    if (at < 0.0) {
      cells_.front() = '<';
    } else if (at > static_cast<double>(cells_.size() - 1)) {
      cells_.back() = '>';
    } else {
      cells_[static_cast<std::size_t>(at)] = c;
    }
  }

  void arrow_left() { cells_.front() = '<'; }
  void arrow_right() { cells_.back() = '>'; }

  [[nodiscard]] std::string text() && { return std::move(cells_); }

 private:
  [[nodiscard]] double column(double torque) const {
    return std::round((torque - axis_.from) / (axis_.to - axis_.from) *
                      static_cast<double>(cells_.size() - 1));
  }

  Axis axis_;
  std::string cells_;
};

}  // namespace

std::string tolerance_strip(const finding::FoundTorque& found,
                            const record::ToleranceWindow& window, std::size_t width) {
  const auto axis = axis_of(window);
  Strip strip(axis, width);
  const auto newton_metres = [](const std::optional<Torque>& torque, double otherwise) {
    return torque ? torque->in_newton_metres() : otherwise;
  };
  const double low = newton_metres(window.low, axis.from);
  const double high = newton_metres(window.high, axis.to);
  strip.fill(low, high, '-');
  const double reference = found.reference().in_newton_metres();
  const double uncertainty = found.budget.expanded().in_newton_metres();
  if (found.basis == finding::Basis::UpperBound) {
    strip.arrow_left();
  } else {
    strip.put(reference - uncertainty, '[');
  }
  if (found.basis == finding::Basis::LowerBound) {
    strip.arrow_right();
  } else {
    strip.put(reference + uncertainty, ']');
  }
  // A limit shows even where a bracket falls into the same column; the verdict beside it decides.
  if (window.low) strip.put(low, '|');
  if (window.high) strip.put(high, '|');
  if (found.best) strip.put(reference, 'x');
  return std::move(strip).text();
}

}  // namespace screen
