#include "finding/tightened_to.h"

#include "finding/in_line.h"
#include "finding/test_bolt.h"
#include "support/catch.h"

namespace tightened_to_test {

using finding::Verdict;

namespace {

record::ToleranceWindow window_72_to_88() {
  record::TorqueTarget target;
  target.value = 80.0;
  return record::window_of(target, quantity::Percent::of_hundred(10.0));
}

}  // namespace

TEST_CASE("what it was tightened to is found over the published range", "[finding]") {
  // Worked by hand: 60 to 64 past gives 62; u² = (2/√3)² + (0.04·62/√3)² + (0.02·62)² = 1.33333 +
  // 2.05013 + 1.5376 = 4.92107. The range 0.9 to 1.1 of a handbook's Table 3-1 (seen) is a
  // rectangle: (0.1·62/√3)² = 12.81333; U = 2 √17.73440 = 8.42244.
  const auto found = found_with("50s 60s 64p");
  const auto tightened = finding::tightened_to(found);
  CHECK(tightened.best.in_newton_metres() == 62.0);
  CHECK_THAT(tightened.expanded.in_newton_metres(), WithinAbs(8.42244, 1e-5));
}

TEST_CASE("today's torque may be out where what it was tightened to is not", "[finding]") {
  const auto window = window_72_to_88();
  // 62 ±4.4 is below 72, and so is 62 ±8.4.
  CHECK(finding::judge(found_with("50s 60s 64p"), window) == Verdict::Low);
  CHECK(finding::judge_tightened(found_with("50s 60s 64p"), window) == Verdict::Low);
  // 66 ±4.5 is below 72, but 66 ±8.9 reaches into it.
  CHECK(finding::judge(found_with("50s 65s 67p"), window) == Verdict::Low);
  CHECK(finding::judge_tightened(found_with("50s 65s 67p"), window) == Verdict::Undecided);
}

TEST_CASE("on the line at the specification is an answer", "[finding]") {
  // Source: US Army TB 43-0218 (seen): marked, backed off, tightened to the specification; marks in
  // line: the torque was right.
  const auto window = window_72_to_88();
  CHECK(finding::in_line_at_specification(measured_with("80o"), window));
  CHECK(finding::in_line_at_specification(measured_with("80o 84p"), window));
  CHECK_FALSE(finding::in_line_at_specification(measured_with("80p"), window));
  CHECK_FALSE(finding::in_line_at_specification(measured_with("60o"), window));
  CHECK_FALSE(finding::in_line_at_specification(measured_with("78s 80o"), window));
}

}  // namespace tightened_to_test
