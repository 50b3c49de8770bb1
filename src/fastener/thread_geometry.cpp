#include "fastener/thread_geometry.h"

#include <numbers>

namespace fastener {
namespace {

using quantity::Area;
using quantity::Length;

constexpr double kProfileHeight = std::numbers::sqrt3 / 2.0;  // H over P

Area circle(Length diameter) {
  const double d = diameter.in_millimetres();
  return Area::square_millimetres(std::numbers::pi / 4.0 * d * d);
}

}  // namespace

Length pitch_diameter(const Thread& thread) {
  return thread.diameter() - thread.pitch() * (0.75 * kProfileHeight);
}

Length nut_minor_diameter(const Thread& thread) {
  return thread.diameter() - thread.pitch() * (1.25 * kProfileHeight);
}

Length root_diameter(const Thread& thread) {
  const double depths = thread.is_metric() ? 1.25 + 1.0 / 6.0 : 1.375;  // in profile heights
  return thread.diameter() - thread.pitch() * (depths * kProfileHeight);
}

Length stress_diameter(const Thread& thread) {
  if (thread.is_metric()) return (pitch_diameter(thread) + root_diameter(thread)) / 2.0;
  return thread.diameter() - thread.pitch() * 0.9743;
}

Area stress_area(const Thread& thread) { return circle(stress_diameter(thread)); }

Area root_area(const Thread& thread) {
  return circle(thread.is_metric() ? root_diameter(thread)
                                   : thread.diameter() - thread.pitch() * (1.5 * kProfileHeight));
}

}  // namespace fastener
