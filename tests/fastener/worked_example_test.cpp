#include <array>

#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/nut_factor.h"
#include "fastener/power_screw.h"
#include "fastener/stiffness.h"
#include "fastener/strength.h"
#include "fastener/thread_geometry.h"
#include "fastener/thread_text.h"
#include "fastener/tightening.h"
#include "fastener/torque_table.h"
#include "fastener/turn_of_nut.h"
#include "fastener/utilisation.h"
#include "quantity/torque_unit.h"
#include "support/catch.h"
#include "support/published.h"

namespace worked_example_test {

using fastener::Friction;
using fastener::Grade;
using fastener::JointStiffness;
using fastener::read_thread;
using fastener::Stiffness;
using fastener::strength_of;
using quantity::Angle;
using quantity::Force;
using quantity::Length;
using quantity::Percent;
using quantity::Stress;
using quantity::Torque;

namespace {

const Torque kNoRunning = Torque::newton_metres(0);

double inch_pounds(Torque torque) {
  return quantity::in_unit(torque, quantity::TorqueUnit::InchPoundForce);
}

Stiffness pounds_per_inch(double value) {
  return Stiffness::newtons_per_millimetre(value * Force::pounds_force(1.0).in_newtons() / 25.4);
}

}  // namespace

TEST_CASE("Shigley's preload example comes out", "[fastener][published]") {
  // Source: Shigley 9th ed. Example 8-3: 3/4-16 grade 5, F = 25 kip, P = 6 kip, kb = 6.50 and
  // km = 13.8 Mlbf/in, f = fc = 0.15. Torques of parts b and c from memory, loosening derived.
  // The book takes At = 0.373 in², the formula gives 0.37296: 0.01 %.
  const auto thread = read_thread("3/4-16");
  const auto preload = Force::pounds_force(25000);
  const auto load = Force::pounds_force(6000);
  const auto joint = JointStiffness::of(pounds_per_inch(6.5e6), pounds_per_inch(13.8e6));
  const double share = joint.bolt_share();
  const auto proof = strength_of(Grade::Sae5, thread).value().proof.value();
  CHECK_PUBLISHED(Published::Seen,
                  (preload / fastener::stress_area(thread)).in_kips_per_square_inch(),
                  WithinAbs(67.02, 0.015));
  CHECK_PUBLISHED(Published::Seen, share, WithinAbs(0.320, 0.0005));
  // (C P + F)/As, section 8-9.
  const auto stress = (load * share + preload) / fastener::stress_area(thread);
  CHECK_PUBLISHED(Published::Seen, stress.in_kips_per_square_inch(), WithinAbs(72.17, 0.02));
  CHECK_PUBLISHED(Published::Seen, 100.0 * (1.0 - preload / fastener::stress_area(thread) / proof),
                  WithinAbs(21, 0.5));
  CHECK_PUBLISHED(Published::Seen, 100.0 * (1.0 - stress / proof), WithinAbs(15, 0.5));

  CHECK_PUBLISHED(Published::FromMemory,
                  inch_pounds(fastener::torque_by_nut_factor(0.2, thread.diameter(), preload)),
                  WithinAbs(3750, 0.5));
  // The book's root is the flat one, dr = d - 1.299038 P.
  const auto flat_root = thread.diameter() - thread.pitch() * 1.299038;
  const PowerScrew screw{thread.diameter(), (thread.diameter() + flat_root) / 2.0, thread.pitch()};
  const auto friction = Friction::same(0.15);
  const auto torque_at = [&](double nut_factor) {
    return inch_pounds(fastener::torque_by_nut_factor(nut_factor, thread.diameter(), preload));
  };
  CHECK_PUBLISHED(Published::FromMemory, torque_at(tightening_nut_factor(screw, friction)),
                  WithinAbs(3551, 0.6));
  CHECK_THAT(torque_at(loosening_nut_factor(screw, friction)), WithinAbs(3038, 1));
}

TEST_CASE("a stripe that moved tells the preload lost", "[fastener]") {
  // Source: Example 8-3 of Shigley 9th ed. again, turn of nut derived: 767.1 lbf per degree, the 25
  // kip are gone after 32.59 degrees.
  const auto thread = read_thread("3/4-16");
  const auto joint = JointStiffness::of(pounds_per_inch(6.5e6), pounds_per_inch(13.8e6));
  CHECK_THAT(fastener::preload_change(thread, joint, Angle::degrees(1)).in_pounds_force(),
             WithinAbs(767.1, 0.1));
  CHECK_THAT(fastener::preload_change(thread, joint, Angle::degrees(-4)).in_pounds_force(),
             WithinAbs(-4 * 767.14, 0.1));
  CHECK_THAT(fastener::preload_change(thread, joint, Angle::degrees(32.59)).in_pounds_force(),
             WithinAbs(25000, 8));
}

TEST_CASE("Shigley's reusable connection comes out", "[fastener][published]") {
  // Source: solutions to Shigley chapter 8 (problems 8-37, 8-38): M30 class 8.8, C = 0.33, 80 kN
  // per bolt, preload 75 % of proof. The book takes 561 mm², the formula gives 560.59: 0.08 %.
  const auto thread = read_thread("M30");
  const auto strength = strength_of(Grade::Class8_8, thread).value();
  const auto preload = fastener::preload_at_proof_share(thread, strength, Percent::of_hundred(75));
  const auto load = Force::newtons(80000);
  CHECK_PUBLISHED(Published::Seen, preload.in_newtons() / 1000.0, WithinRel(252.45, 0.001));
  CHECK_PUBLISHED(Published::Seen, (preload / fastener::stress_area(thread)).in_megapascals(),
                  WithinAbs(450, 0.01));
  CHECK_THAT(fastener::share_of_proof(thread, strength, preload).in_percent(), WithinAbs(75, 1e-9));
  // What the bolt gets of the load, half of it as an amplitude; and how often the load may grow
  // before the bolt reaches proof, (Sp As - F)/(C P), eq. 8-29.
  const auto of_load = load * 0.33;
  CHECK_PUBLISHED(Published::Seen, (of_load / fastener::stress_area(thread)).in_megapascals() / 2.0,
                  WithinRel(23.53, 0.001));
  const auto proof = fastener::load_at(fastener::proof_basis(strength).stress, thread);
  CHECK_PUBLISHED(Published::Seen, (proof - preload) / of_load, WithinAbs(3.19, 0.0055));
}

TEST_CASE("Shigley's rod stiffness comes out", "[fastener][published]") {
  // Source: solutions to Shigley chapter 8: 0.375 in x 13.5 in, E = 30 Mpsi: 0.245 Mlbf/in.
  const auto section = quantity::Area::square_millimetres(3.14159265358979 / 4.0 * 9.525 * 9.525);
  const auto stiffness =
      fastener::rod_stiffness(section, Stress::kips_per_square_inch(30000), Length::inches(13.5));
  CHECK_PUBLISHED(Published::Seen, stiffness / pounds_per_inch(1e6), WithinAbs(0.245, 0.0006));
  CHECK_THROWS_AS(fastener::rod_stiffness(section, Stress::megapascals(1), Length::inches(0)),
                  failure::InputError);
  CHECK_THROWS_AS(JointStiffness::of(stiffness, Stiffness::newtons_per_millimetre(0)),
                  failure::InputError);
}

TEST_CASE("two VDI 2230 examples come out", "[fastener][published]") {
  // Source: guideline row M10x1.25 8.8 at 0.12: 31.6 kN and 51 N·m. Supplier's worked example
  // M12 8.8 at 0.14: 41.9 kN at most, 23.3 kN at least with a tightening factor of 1.8.
  const auto share = Percent::of_hundred(90);
  const auto fine = read_thread("M10x1.25");
  const auto strength = strength_of(Grade::Class8_8, fine).value();
  CHECK_THAT(
      fastener::assembly_preload(fine, strength.yield, 0.12, share, kNoRunning).in_newtons() /
          1000.0,
      WithinAbs(31.6, 0.06));
  CHECK_THAT(fastener::torque_for_yield_share(fine, fastener::usual_bearing_diameter(fine),
                                              Friction::same(0.12), strength, share, kNoRunning)
                 .in_newton_metres(),
             WithinAbs(51, 0.6));
  const auto most =
      fastener::assembly_preload(read_thread("M12"), strength.yield, 0.14, share, kNoRunning);
  CHECK_PUBLISHED(Published::Seen, most.in_newtons() / 1000.0, WithinAbs(41.9, 0.2));
  CHECK_PUBLISHED(Published::Seen, most.in_newtons() / 1000.0 / 1.8, WithinAbs(23.3, 0.1));
}

TEST_CASE("structural bolt pretension is seven tenths of the tensile load",
          "[fastener][published]") {
  // Source: torque_tables.csv: AISC 360-05 Tables J3.1 (inch, whole kip) and J3.1M (metric, whole
  // kN), some rounded up. The metric bolts have the tensile strength of 8.8 above M16 and of 10.9.
  int checked = 0;
  for (const auto* table : {"AISC-J3.1", "AISC-J3.1M"}) {
    for (const auto& row : rows_of_table(table)) {
      INFO(label_of(row));
      const auto tensile = row.grade == "ASTM A325M"   ? Stress::megapascals(830)
                           : row.grade == "ASTM A490M" ? Stress::megapascals(1040)
                                                       : row.strength().tensile;
      CHECK_PUBLISHED(Published::Seen, row.in_unit(fastener::load_at(tensile * 0.7, row.thread)),
                      WithinAbs(row.printed.value, row.printed.last_digit));
      ++checked;
    }
  }
  CHECK(checked == 32);
}

TEST_CASE("the linear form stays within two per cent of the power screw", "[fastener]") {
  // Source of the other side: Shigley 9th ed. Eq. 8-26, given the pitch diameter and 1.25 d.
  for (const auto* text :
       {"M3", "M10", "M10x1", "M24", "M64", "#4-40", "1/4-20", "1/2-13", "1-8"}) {
    for (const double coefficient : {0.08, 0.12, 0.2}) {
      INFO(text << " at " << coefficient);
      const auto thread = read_thread(text);
      const auto friction = Friction::same(coefficient);
      const auto arm =
          fastener::tightening_arm(thread, thread.diameter() * 1.25, friction) / thread.diameter();
      const double nut_factor = tightening_nut_factor(
          {thread.diameter(), fastener::pitch_diameter(thread), thread.pitch()}, friction);
      CHECK(nut_factor > arm);
      CHECK_THAT(arm, WithinRel(nut_factor, 0.02));
    }
  }
}

}  // namespace worked_example_test
