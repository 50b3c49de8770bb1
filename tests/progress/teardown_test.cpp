// How far the teardown of a joint has come, and where somebody goes on.

#include "progress/teardown.h"

#include "progress/teardown_walk.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace teardown_test {

using progress::teardown_of;
using progress::TeardownWalk;

namespace {

JobBuilder cover() {
  JobBuilder job;
  job.wrench().joint("J06").specified("J06");
  return job;
}

std::optional<int> next(const JobBuilder& job, const std::vector<int>& named = {}) {
  return TeardownWalk(job.job().joints.back().content, named).next(teardown_of(job.job()));
}

std::size_t open_pulls(const JobBuilder& job, int position) {
  const auto teardown = teardown_of(job.job());
  return progress::at(teardown, "j06", position).pulls.size();
}

}  // namespace

TEST_CASE("a position is finished when it is out and tested", "[progress]") {
  auto job = cover();
  CHECK(next(job) == 1);
  job.out("J06/1");
  CHECK(next(job) == 1);
  job.found("J06/1", "70s 80o");
  CHECK(next(job) == 2);
  // Called out before it was recorded as out: that is still asked for.
  job.found("J06/2", "70s 80o");
  CHECK(next(job) == 2);
  job.out("J06/2");
  CHECK(next(job) == 3);
}

TEST_CASE("a position with nothing to test is finished when it is out", "[progress]") {
  auto job = cover();
  job.out("J06/1", record::BreakLoose::Empty).out("J06/2", record::BreakLoose::Sheared);
  job.out("J06/3");
  job.last_removal().marked = false;
  CHECK(next(job) == 4);
  CHECK(next(job, {3}) == std::nullopt);
}

TEST_CASE("pulls are under way until a finding has gathered them", "[progress]") {
  auto job = cover();
  job.out("J06/1-4").pulled("J06/3", "60s").pulled("J06/3", "70s");
  CHECK(open_pulls(job, 3) == 2);
  CHECK(next(job) == 3);
  job.found("J06/3", "60s 70s 80o");
  CHECK(open_pulls(job, 3) == 0);
  CHECK(next(job) == 1);
  job.pulled("J06/3", "60s");
  CHECK(open_pulls(job, 3) == 1);
  CHECK(next(job) == 3);
}

TEST_CASE("what was done before the position was tightened is of an earlier teardown",
          "[progress]") {
  auto job = cover();
  job.out("J06/1-4").found("J06/1", "70s 80o").pulled("J06/2", "60s");
  job.tightened("J06/1-4", 1, 56, 56);
  CHECK(open_pulls(job, 2) == 0);
  CHECK(next(job) == 1);
  CHECK(progress::at(teardown_of(job.job()), "J06", 1).finding == nullptr);
}

TEST_CASE("one position named by itself is tested once more", "[progress]") {
  auto job = cover();
  job.out("J06/1-4").found("J06/3", "60s 90o");
  CHECK(next(job, {3}) == 3);
  CHECK(next(job, {3, 4}) == 4);
  const auto teardown = teardown_of(job.job());
  TeardownWalk walk(job.job().joints.back().content, {3});
  walk.recorded();
  CHECK(walk.next(teardown) == std::nullopt);
  walk.test_again(3);
  CHECK(walk.next(teardown) == 3);
  walk.skip(3);
  CHECK(walk.next(teardown) == std::nullopt);
}

TEST_CASE("a skipped position is passed by but stays open", "[progress]") {
  auto job = cover();
  const auto teardown = teardown_of(job.job());
  TeardownWalk walk(job.job().joints.back().content, {});
  walk.skip(1);
  CHECK(walk.next(teardown) == 2);
  CHECK(walk.open(teardown) == std::vector{1, 2, 3, 4});
}

}  // namespace teardown_test
