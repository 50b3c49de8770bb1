#include "fastener/stiffness.h"

#include "failure/failure.h"

namespace fastener {

using failure::InputError;

Stiffness rod_stiffness(quantity::Area section, quantity::Stress modulus, quantity::Length length) {
  if (length.in_millimetres() <= 0.0) throw InputError("expected a stretched length above zero");
  return Stiffness::newtons_per_millimetre((modulus * section).in_newtons() /
                                           length.in_millimetres());
}

JointStiffness JointStiffness::of(Stiffness bolt, Stiffness members) {
  const auto zero = Stiffness::newtons_per_millimetre(0.0);
  if (bolt <= zero || members <= zero) {
    throw InputError("expected a bolt and clamped parts with a stiffness above zero");
  }
  return {bolt, members};
}

}  // namespace fastener
