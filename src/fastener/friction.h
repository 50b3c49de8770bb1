#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/origin.h"

namespace fastener {

// Coefficients of friction, thread and head face apart, as ISO 16047 measures them. Each is above 0
// and below 1; InputError otherwise.
class Friction {
 public:
  [[nodiscard]] static Friction of(double thread, double head);
  [[nodiscard]] static Friction same(double coefficient) { return of(coefficient, coefficient); }

  [[nodiscard]] double thread() const { return thread_; }
  [[nodiscard]] double head() const { return head_; }

 private:
  Friction(double thread, double head) : thread_(thread), head_(head) {}

  double thread_;
  double head_;
};

// The span in which thread and head friction are expected, both together at the same end.
struct FrictionBand {
  double low = 0.0;
  double high = 0.0;
  Origin origin;
};

// The band for a condition, steel on steel. Nothing for a threadlocker: thread friction then hangs
// on the product, the gap and the time since it was applied, and no source gives a band that holds
// for more than one product. Ask its maker.
[[nodiscard]] std::optional<FrictionBand> friction_band(Condition condition);

}  // namespace fastener
