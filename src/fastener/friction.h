#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/grade.h"
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

// The span in which thread and head friction are expected. Where it is one for both, they are at
// the same end together: low with low, high with high.
struct FrictionBand {
  Friction low;
  Friction high;
  Origin origin;

  // One span for thread and head.
  [[nodiscard]] static FrictionBand same(double low, double high, Origin origin) {
    return {Friction::same(low), Friction::same(high), origin};
  }
};

// The band for a condition, a bolt of this metal on its own kind. Stainless steel rubs harder than
// carbon steel in every condition, and seizes dry. Nothing for a threadlocker: thread friction then
// hangs on the product, the gap and the time since it was applied, and no source gives a band that
// holds for more than one product. Ask its maker.
[[nodiscard]] std::optional<FrictionBand> friction_band(Condition condition, BoltMetal metal);

// The same, and for a threadlocker the span from oiled to dry. It bounds no one product: it is
// there to stop a search and to spot a torque that no usual friction explains, never to compute a
// preload.
[[nodiscard]] FrictionBand friction_span(Condition condition, BoltMetal metal);

}  // namespace fastener
