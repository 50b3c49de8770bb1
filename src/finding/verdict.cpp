#include "finding/verdict.h"

namespace finding {

std::string_view word_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::Within:
      return "within";
    case Verdict::Low:
      return "low";
    case Verdict::High:
      return "high";
    case Verdict::Undecided:
      return "undecided";
    case Verdict::NotComparable:
      return "not comparable";
  }
  return "undecided";
}

Verdict judge(const FoundTorque& found, const record::ToleranceWindow& window) {
  return judge(Uncertain{found.basis, found.reference(), found.budget.expanded()}, window);
}

Verdict judge(const Uncertain& torque, const record::ToleranceWindow& window) {
  // [least, most]: where the torque lies with about 95 % confidence; an open end is absent.
  std::optional<quantity::Torque> least;
  std::optional<quantity::Torque> most;
  if (torque.basis != Basis::UpperBound) least = torque.reference - torque.expanded;
  if (torque.basis != Basis::LowerBound) most = torque.reference + torque.expanded;

  if (most && window.low && *most < *window.low) return Verdict::Low;
  if (least && window.high && *least > *window.high) return Verdict::High;
  const bool clear_of_low = !window.low || (least && *least >= *window.low);
  const bool clear_of_high = !window.high || (most && *most <= *window.high);
  return clear_of_low && clear_of_high ? Verdict::Within : Verdict::Undecided;
}

}  // namespace finding
