#include "plan/neighbour_loss.h"

#include "plan/position_order.h"
#include "support/job_builder.h"
#include "support/property.h"

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

TEST_CASE("after slackening all of it is raised anew, and an angle adds to its torque", "[plan]") {
  const auto loss_of = [](const std::string& procedure) {
    JobBuilder job;
    job.joint("J01", 8, "M12x1.75");
    job.specified("J01", procedure, "GB-1 Shop Manual rev C p. 12", fastener::Condition::Oiled);
    const auto survey = finding::survey(job.job());
    return plan::neighbour_losses(plan::reassembly_plan(job.job(), survey, {&survey.joints.front()},
                                                        record::read_day("2026-06-02")))
        .at(0);
  };
  CHECK(loss_of("40 N·m, loosen, 40 N·m").raised == 1.0);
  CHECK_FALSE(loss_of("40 N·m, loosen, 40 N·m").by_angle);
  CHECK_THAT(loss_of("40 N·m, 80 N·m").raised, WithinAbs(0.5, 1e-12));
  CHECK(loss_of("40 N·m, loosen, 40 N·m, +90°").by_angle);
  CHECK_THAT(loss_of("60 N·m, +60°").lost.in_percent(), WithinAbs(35.0, 1e-9));
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
