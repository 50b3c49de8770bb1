#include "plan/neighbour_loss.h"

#include "plan/position_order.h"
#include "support/job_builder.h"
#include "support/property.h"

namespace neighbour_loss_test {

using plan::later_neighbours;
using record::CircleLayout;
using record::LineLayout;
using Order = std::vector<int>;

TEST_CASE("the neighbours that come later are counted", "[plan]") {
  // Worked by hand. A circle of four crosswise, 1 3 2 4: 1 and 3 are tightened before their
  // neighbours 2 and 4, which are the last two.
  CHECK(later_neighbours(CircleLayout{}, 4, {1, 3, 2, 4}) == Order{2, 2, 0, 0});
  // Round it: the first has both to come, the last none, all others one.
  CHECK(later_neighbours(CircleLayout{}, 6, {1, 2, 3, 4, 5, 6}) == Order{2, 1, 1, 1, 1, 0});
  // A line of three from the middle: the nearest two of an end are the middle and the other end.
  CHECK(later_neighbours(LineLayout{}, 3, {2, 1, 3}) == Order{2, 1, 0});
  CHECK(later_neighbours(CircleLayout{}, 2, {2, 1}) == Order{1, 0});
  CHECK(later_neighbours(CircleLayout{}, 1, {1}) == Order{0});
}

TEST_CASE("what neighbours take falls with the step and with a check round", "[plan]") {
  // Source: a reference page on tightening sequences (seen): tightened one after another up to 35 %
  // of the preload was lost to those tightened later. Half of it for one neighbour is our reading.
  JobBuilder job;
  job.joint("J01", 8, "M12x1.75");
  job.specified("J01", "80 N·m", "GB-1 Shop Manual rev C p. 12", fastener::Condition::Oiled);
  const auto survey = finding::survey(job.job());
  const auto losses = plan::neighbour_losses(plan::reassembly_plan(
      job.job(), survey, {&survey.joints.front()}, record::read_day("2026-06-02")));
  REQUIRE(losses.size() == 1);
  const auto& loss = losses.front();
  CHECK(loss.most_later == 2);
  CHECK_THAT(loss.lost.in_percent() / loss.raised, WithinAbs(35.0, 1e-9));
  CHECK(loss.raised < 1.0);
  CHECK(loss.checked);
  CHECK_THAT(loss.left.in_percent(), WithinAbs(0.35 * loss.lost.in_percent(), 1e-9));
}

TEST_CASE("what rises last is told from what was slackened, and from an angle", "[plan]") {
  // Worked by hand: after slackening the fasteners rise by the whole of what follows, and an angle
  // says no share, so that all of it counts; 35 % of it to two later neighbours as above.
  const auto losses_of = [](const char* specification) {
    JobBuilder job;
    job.joint("J01", 9, "M12x1.75");
    job.specified("J01", specification, "GB-1 Shop Manual rev C p. 12", fastener::Condition::Oiled);
    const auto survey = finding::survey(job.job());
    const auto plan = plan::reassembly_plan(job.job(), survey, {&survey.joints.front()},
                                            record::read_day("2026-06-02"));
    const auto losses = plan::neighbour_losses(plan);
    REQUIRE(losses.size() == 1);
    return losses.front();
  };
  const auto slackened = losses_of("40 N·m, loosen, 40 N·m");
  CHECK_FALSE(slackened.by_angle);
  CHECK(slackened.raised == 1.0);
  CHECK_THAT(slackened.lost.in_percent(), WithinAbs(35.0, 1e-9));
  for (const auto* specification :
       {"60 N·m, +60°", "40 N·m, loosen, 40 N·m, +90°", "20 N·m, +90°, +90°"}) {
    INFO(specification);
    const auto by_angle = losses_of(specification);
    CHECK(by_angle.by_angle);
    CHECK(by_angle.raised == 1.0);
    CHECK_THAT(by_angle.lost.in_percent(), WithinAbs(35.0, 1e-9));
  }
  const auto stepped = losses_of("30 N·m, 60 N·m");
  CHECK_FALSE(stepped.by_angle);
  CHECK_THAT(stepped.raised, WithinAbs(0.5, 1e-9));
}

TEST_CASE("in any order every pair of neighbours is counted once at most", "[plan]") {
  holds_always("on a circle the later neighbours are as many as there are gaps", [] {
    const int count = *rc::gen::inRange(3, 33);
    const auto order = plan::position_order(CircleLayout{}, count).positions;
    int all = 0;
    for (const int later : later_neighbours(CircleLayout{}, count, order)) all += later;
    RC_ASSERT(all == count);
  });
}

}  // namespace neighbour_loss_test
