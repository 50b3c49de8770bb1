#include "screen/tolerance_strip.h"

#include "support/catch.h"

namespace tolerance_strip_test {

namespace {

using quantity::Torque;

record::ToleranceWindow window(double low, double high) {
  return {Torque::newton_metres(low), std::nullopt, Torque::newton_metres(high), false};
}

// A finding at `best` with U = 2u = `expanded`.
finding::FoundTorque found(double best, double expanded,
                           finding::Basis basis = finding::Basis::Bracket) {
  finding::FoundTorque torque;
  torque.basis = basis;
  if (basis == finding::Basis::Bracket) torque.best = Torque::newton_metres(best);
  if (basis != finding::Basis::UpperBound) torque.low = Torque::newton_metres(best);
  if (basis != finding::Basis::LowerBound) torque.high = Torque::newton_metres(best);
  torque.budget.method = Torque::newton_metres(expanded / 2.0);
  return torque;
}

}  // namespace

// Worked by hand: limits 70 and 90 put the axis at 60 to 100, so that 41 columns are one N·m each.
TEST_CASE("the strip puts every torque in its column", "[screen]") {
  CHECK(screen::tolerance_strip(found(80, 4), window(70, 90), 41) ==
        "..........|-----[---x---]-----|..........");
  CHECK(screen::tolerance_strip(found(67, 2), window(70, 90), 41) ==
        ".....[.x.]|-------------------|..........");
  CHECK(screen::tolerance_strip(found(72, 4), window(70, 90), 41) ==
        "........[.|-x---]-------------|..........");
}

TEST_CASE("what lies beyond the strip is an arrow at its end", "[screen]") {
  CHECK(screen::tolerance_strip(found(50, 4), window(70, 90), 41) ==
        "<.........|-------------------|..........");
  CHECK(screen::tolerance_strip(found(120, 4), window(70, 90), 41) ==
        "..........|-------------------|.........>");
}

TEST_CASE("one bound has one bracket and an arrow", "[screen]") {
  CHECK(screen::tolerance_strip(found(80, 4, finding::Basis::LowerBound), window(70, 90), 41) ==
        "..........|-----[-------------|.........>");
  CHECK(screen::tolerance_strip(found(80, 4, finding::Basis::UpperBound), window(70, 90), 41) ==
        "<.........|-------------]-----|..........");
}

// Worked by hand: a minimum of 80 alone puts the axis at 40 to 120, two N·m a column.
TEST_CASE("a specification with one limit has one bar", "[screen]") {
  CHECK(screen::tolerance_strip(found(90, 4), {Torque::newton_metres(80), {}, {}, false}, 41) ==
        "....................|--[-x-]-------------");
  CHECK(screen::tolerance_strip(found(70, 4), {{}, {}, Torque::newton_metres(80), false}, 41) ==
        "-------------[-x-]--|....................");
}

}  // namespace tolerance_strip_test
