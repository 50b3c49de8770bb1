#include "progress/hold_point_state.h"

#include "support/catch.h"

namespace hold_point_state_test {

using progress::HoldPointState;
using record::HoldPointMove;
using Stands = HoldPointState::Stands;

namespace {

record::Moment at(int minute, int second = 0) {
  return record::read_moment("2026-06-01T08:00:00Z") + std::chrono::minutes(minute) +
         std::chrono::seconds(second);
}

// A job with one hold point, "HV", entered at minute 0.
class HoldPointJob {
 public:
  explicit HoldPointJob(
      std::optional<record::SpanOfTime> wait = record::SpanOfTime{std::chrono::minutes(10)},
      std::vector<std::string> joints = {}) {
    enter(wait, std::move(joints));
  }

  HoldPointJob& enter(std::optional<record::SpanOfTime> wait, std::vector<std::string> joints = {},
                      record::Moment when = at(0)) {
    job_.hold_points.push_back({stamp(when), {"HV", "store discharged", wait, std::move(joints)}});
    job_.hold_points.back().stamp.entered_at = when;
    return *this;
  }
  HoldPointJob& step(HoldPointMove move, record::Moment when) {
    job_.hold_point_steps.push_back({stamp(when), {"hv", move, ""}});
    return *this;
  }
  [[nodiscard]] HoldPointState state(record::Moment now) const {
    return progress::hold_points(job_, now).at(0);
  }
  [[nodiscard]] const record::Job& job() const { return job_; }

 private:
  record::Stamp stamp(record::Moment when) {
    ++line_;
    record::Stamp stamp;
    stamp.id = std::string(1, static_cast<char>('a' + line_));
    stamp.line = line_;
    stamp.done_at = when;
    return stamp;
  }
  record::Job job_;
  int line_ = 0;
};

}  // namespace

TEST_CASE("a hold point opens only after its wait and a passing", "[progress]") {
  HoldPointJob hold;
  CHECK(hold.state(at(5)).stands == Stands::NotBegun);
  hold.step(HoldPointMove::Begun, at(5));
  CHECK(hold.state(at(5)).stands == Stands::Waiting);
  CHECK(hold.state(at(7, 48)).left.seconds == std::chrono::seconds(432));
  CHECK(progress::in_words(hold.state(at(7, 48))) ==
        "hold point HV (store discharged): 7 min 12 s of the wait left");
  CHECK(hold.state(at(14, 59)).stands == Stands::Waiting);
  CHECK(hold.state(at(15)).stands == Stands::WaitOver);
  CHECK(progress::in_the_way(hold.job(), "J01", at(15)).size() == 1);
  hold.step(HoldPointMove::Passed, at(16));
  CHECK(hold.state(at(16)).stands == Stands::Passed);
  CHECK(progress::in_the_way(hold.job(), "J01", at(16)).empty());
  hold.step(HoldPointMove::Closed, at(20));
  CHECK(hold.state(at(60)).stands == Stands::NotBegun);
}

TEST_CASE("a hold point passed before its wait was over stays shut", "[progress]") {
  HoldPointJob hold;
  hold.step(HoldPointMove::Begun, at(5)).step(HoldPointMove::Passed, at(14, 59));
  CHECK(hold.state(at(14, 59)).stands == Stands::Waiting);
  CHECK(hold.state(at(30)).stands == Stands::WaitOver);
  hold.step(HoldPointMove::Passed, at(30));
  CHECK(hold.state(at(30)).stands == Stands::Passed);
}

TEST_CASE("a wait begun again runs from the last begin", "[progress]") {
  HoldPointJob hold;
  hold.step(HoldPointMove::Begun, at(0)).step(HoldPointMove::Begun, at(8));
  CHECK(hold.state(at(12)).left.seconds == std::chrono::minutes(6));
}

TEST_CASE("a hold point without a wait needs only the passing", "[progress]") {
  HoldPointJob hold(std::nullopt);
  CHECK(progress::in_words(hold.state(at(1))) ==
        "hold point HV (store discharged) has not been passed");
  hold.step(HoldPointMove::Passed, at(1));
  CHECK(hold.state(at(1)).stands == Stands::Passed);
}

TEST_CASE("a hold point entered again forgets what was done about the earlier one", "[progress]") {
  HoldPointJob hold(std::nullopt);
  hold.step(HoldPointMove::Passed, at(1)).enter(std::nullopt);
  CHECK(hold.state(at(2)).stands == Stands::NotBegun);
}

TEST_CASE("a begin left over from the earlier entry shuts what was passed before it",
          "[progress]") {
  HoldPointJob hold;
  hold.step(HoldPointMove::Begun, at(40)).enter(record::SpanOfTime{std::chrono::minutes(10)});
  hold.step(HoldPointMove::Begun, at(5)).step(HoldPointMove::Passed, at(20));
  CHECK(hold.state(at(30)).stands == Stands::Passed);
  CHECK(hold.state(at(41)).stands == Stands::NotBegun);
  // It starts no wait of now.
  CHECK(hold.state(at(60)).stands == Stands::NotBegun);
}

TEST_CASE("a hold point stands before its own joints alone", "[progress]") {
  const HoldPointJob hold(std::nullopt, {"J05"});
  CHECK(progress::in_the_way(hold.job(), "j05", at(1)).size() == 1);
  CHECK(progress::in_the_way(hold.job(), "J06", at(1)).empty());
}

TEST_CASE("a step counts from when it was done and not from when it was entered", "[progress]") {
  HoldPointJob hold(std::nullopt);
  hold.step(HoldPointMove::Closed, at(20)).step(HoldPointMove::Passed, at(10));
  CHECK(hold.state(at(9)).stands == Stands::NotBegun);
  CHECK(hold.state(at(15)).stands == Stands::Passed);
  CHECK(hold.state(at(21)).stands == Stands::NotBegun);
  CHECK(progress::in_the_way(hold.job(), "J01", at(15)).empty());
  CHECK(progress::in_the_way(hold.job(), "J01", at(21)).size() == 1);
}

TEST_CASE("what was done before a hold point was entered again opens it no more", "[progress]") {
  HoldPointJob hold(std::nullopt);
  hold.step(HoldPointMove::Passed, at(1)).enter(std::nullopt, {}, at(20));
  hold.step(HoldPointMove::Passed, at(10));  // entered last
  CHECK(hold.state(at(21)).stands == Stands::NotBegun);
  // Up to then it was open, and what was done behind it was in order.
  CHECK(hold.state(at(15)).stands == Stands::Passed);
  hold.step(HoldPointMove::Passed, at(22));
  CHECK(hold.state(at(22)).stands == Stands::Passed);
}

TEST_CASE("nothing is behind a hold point that was not there yet", "[progress]") {
  const HoldPointJob hold(std::nullopt);
  const progress::HoldPointTimes times(hold.job());
  constexpr std::string_view kEarlierLine = "a";
  CHECK(times.shut_before("J01", at(-5), kEarlierLine).empty());
  CHECK(times.shut_before("J01", at(0), kEarlierLine).empty());
  CHECK(times.shut_before("J01", at(0, 1), kEarlierLine).size() == 1);
}

TEST_CASE("a hold point without a time of its own may have stood before it was entered",
          "[progress]") {
  const HoldPointJob hold(std::nullopt);
  const auto before = progress::in_the_way(hold.job(), "J01", at(-5));
  REQUIRE(before.size() == 1);
  CHECK(before.front().is_yet_to_come);
  CHECK_THAT(progress::in_words(before.front()),
             ContainsSubstring("nothing tells whether it stood before"));
  // With a time of its own it applies from then, whenever it was entered.
  auto job = hold.job();
  job.hold_points.front().stamp.entered_at = at(30);
  CHECK(progress::in_the_way(job, "J01", at(-5)).empty());
  CHECK(progress::in_the_way(job, "J01", at(5)).size() == 1);
}

}  // namespace hold_point_state_test
