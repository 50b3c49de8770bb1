#pragma once

#include "quantity/area.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/scalar.h"
#include "quantity/stress.h"

namespace fastener {

// Force per stretch, kept in N/mm.
class Stiffness : public quantity::Scalar<Stiffness> {
 public:
  [[nodiscard]] static Stiffness newtons_per_millimetre(double value) { return Stiffness(value); }
  [[nodiscard]] double in_newtons_per_millimetre() const { return base(); }

 private:
  using Scalar::Scalar;
  friend class quantity::Scalar<Stiffness>;
};

[[nodiscard]] inline quantity::Force operator*(Stiffness stiffness, quantity::Length stretch) {
  return quantity::Force::newtons(stiffness.in_newtons_per_millimetre() * stretch.in_millimetres());
}

// k = A E/l of a rod.   A  cross section   E  modulus of elasticity   l  stretched length
// Source: Shigley 9th ed., Eq. 4-4. InputError for a length not above zero.
[[nodiscard]] Stiffness rod_stiffness(quantity::Area section, quantity::Stress modulus,
                                      quantity::Length length);

// A bolt and the parts it clamps: kb and km, both above zero (InputError otherwise).
class JointStiffness {
 public:
  [[nodiscard]] static JointStiffness of(Stiffness bolt, Stiffness members);

  // C = kb/(kb + km): the share of a load on the joint that reaches the bolt.
  // Source: Shigley 9th ed., Eq. (f) before 8-24.
  [[nodiscard]] double bolt_share() const { return bolt_ / (bolt_ + members_); }

  // kb km/(kb + km): preload gained per millimetre that the nut travels along the thread.
  [[nodiscard]] Stiffness against_nut_travel() const { return members_ * bolt_share(); }

 private:
  JointStiffness(Stiffness bolt, Stiffness members) : bolt_(bolt), members_(members) {}

  Stiffness bolt_;
  Stiffness members_;
};

}  // namespace fastener
