#include "progress/progress.h"

#include <algorithm>

#include "progress/reassembly.h"
#include "progress/second_check.h"
#include "progress/tightening_remarks.h"
#include "progress/turned_stripe.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace progress_test {

using progress::Step;
using record::PassKind;
using Stands = Step::Stands;

namespace {

constexpr record::Day kDay{std::chrono::year{2026}, std::chrono::June, std::chrono::day{2}};
const record::Moment kMoment = record::read_moment("2026-06-02T08:00:00Z");  // after every line

// Two positions at 80 N·m: the default rule makes two rounds of it, 56 and 80 N·m.
JobBuilder two_rounds() {
  JobBuilder job;
  job.wrench().joint("J01", 2).specified("J01", "80 N·m").out("J01/1-2");
  return job;
}

// "Open", "Done" or "LeftOut" of every step of J01 as one letter, in the order of the plan.
std::string standing(const progress::Reassembly& now) {
  std::string text;
  for (const auto& step : now.progress.steps()) {
    text += step.stands == Stands::Done ? 'd' : step.stands == Stands::LeftOut ? 'l' : '.';
  }
  return text;
}

std::string standing(const JobBuilder& job) {
  return standing(progress::Reassembly(job.job(), kDay));
}

record::Tightening last_of(const JobBuilder& job) { return job.job().tightenings.back().content; }

// Remarks on the last tightening of the job, against all before it.
std::string remarks(const JobBuilder& job) {
  auto before = job.job();
  before.tightenings.pop_back();
  const progress::Reassembly now(before, kDay);
  std::string text;
  for (const auto& remark : progress::remarks_on(last_of(job), now, kMoment)) {
    text += remark + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("progress follows the passes, position by position", "[progress]") {
  auto job = two_rounds();
  const progress::Reassembly before(job.job(), kDay);
  REQUIRE(before.progress.steps().size() == 4);
  CHECK(before.progress.next()->pass_number() == 1);
  CHECK(standing(before) == "....");

  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1", 2, 80, 80);
  const progress::Reassembly now(job.job(), kDay);
  CHECK(standing(now) == "ddd.");
  CHECK(now.progress.next()->position == 2);
  CHECK(now.progress.has_final_value("j01", 1));
  CHECK_FALSE(now.progress.has_final_value("J01", 2));
}

TEST_CASE("a pass left out comes back once nothing else is open", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1", 1, 56, 56);
  job.last_tightening().skipped_why = "waits for the stud";
  job.tightened("J01/2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80);
  const progress::Reassembly now(job.job(), kDay);
  CHECK(standing(now) == "lddd");
  REQUIRE(now.progress.next() != nullptr);
  CHECK(now.progress.next()->stands == Stands::LeftOut);
  // Done below what it stands at, it was slackened first: its next pass follows it.
  job.tightened("J01/1", 1, 56, 56);
  CHECK(standing(job) == "dd.d");
  job.tightened("J01/1", 2, 80, 80);
  CHECK(progress::Reassembly(job.job(), kDay).progress.next() == nullptr);
}

TEST_CASE("a pull to less than a later pass had reached has that open again", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 2, 80, 76).tightened("J01/1", 1, 56, 56);
  CHECK(standing(job) == "d..d");
  CHECK_THAT(remarks(job), ContainsSubstring("pass 2 was done before this at J01/01 (line") &&
                               ContainsSubstring("open again"));
  const progress::Reassembly now(job.job(), kDay);
  CHECK_FALSE(now.progress.has_final_value("J01", 1));
  CHECK_THAT(progress::why_no_stripe(now, "J01", {1}, kMoment),
             ContainsSubstring("J01/01 has not reached the final value"));
  job.tightened("J01/1", 2, 80, 80);
  CHECK(standing(job) == "d.dd");
  SECTION("entered late with its own earlier time it was before that") {
    auto late = two_rounds();
    late.tightened("J01/1-2", 2, 80, 80).tightened("J01/1-2", 1, 56, 56);
    auto in_order = late.job();
    in_order.tightenings.back().stamp.done_at -= std::chrono::minutes(2);
    CHECK(standing(progress::Reassembly(in_order, kDay)) == "dddd");
  }
  SECTION("as much or more leaves it done") {
    auto again = two_rounds();
    again.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 78);
    again.tightened("J01/1", 1, 56, 78);
    CHECK(standing(again) == "dddd");
  }
}

TEST_CASE("a pass forgotten before one that is done keeps the stripe off", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1", 1, 56, 56).tightened("J01/1-2", 2, 80, 80);
  const progress::Reassembly now(job.job(), kDay);
  CHECK_THAT(progress::why_no_stripe(now, "J01", {1, 2}, kMoment),
             ContainsSubstring("pass 1 of J01/02 is open, though a later one is done"));
  CHECK(progress::why_no_stripe(now, "J01", {1}, kMoment).empty());
}

TEST_CASE("what ended below the least has no stripe before that is decided", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80);
  job.tightened("J01/1", 2, 80, 70);
  const auto why = [&] {
    return progress::why_no_stripe(progress::Reassembly(job.job(), kDay), "J01", {1, 2}, kMoment);
  };
  CHECK_THAT(why(), ContainsSubstring("J01/01 ended at 70 N·m, below the least"));
  job.decided("under-torqued:J01/01", "J01", 1, record::Decision::UseAsIs);
  auto decided = job.job();
  decided.dispositions.back().content.rule = "under-torqued";
  CHECK(
      progress::why_no_stripe(progress::Reassembly(decided, kDay), "J01", {1, 2}, kMoment).empty());
}

TEST_CASE("work that counts for nothing says so", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  job.rechecked("J01/1", 20.0).tightened("J01/1", 3, 80, 80);
  CHECK_THAT(remarks(job),
             ContainsSubstring("counts for nothing at J01/01 before pass 1 is done there"));
  job.slackened("J01/1");
  CHECK_THAT(remarks(job), !ContainsSubstring("counts for nothing"));
}

TEST_CASE("a wrench without a calibration on record is told once a joint", "[progress]") {
  JobBuilder job;
  job.wrench().joint("J01", 2).specified("J01", "80 N·m").out("J01/1-2");
  job.last_wrench().calibrated.reset();
  job.tightened("J01/1", 1, 56, 56);
  CHECK_THAT(remarks(job), ContainsSubstring("no calibration of TW2 is on record"));
  job.tightened("J01/2", 1, 56, 56);
  CHECK_THAT(remarks(job), !ContainsSubstring("calibration"));
}

TEST_CASE("a setting in another unit than was meant is asked after", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1", 1, 56, 56).tightened("J01/1", 2, 80, 59);  // 80 N·m is 59.0 ft·lbf
  CHECK_THAT(remarks(job), ContainsSubstring("look which scale was read"));
  job.tightened("J01/2", 2, 80, 70);
  CHECK_THAT(remarks(job), !ContainsSubstring("which scale"));
}

TEST_CASE("leaving a pass out after it was done changes nothing", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1", 1, 56, 56).tightened("J01/1", 1, 56, 56);
  job.last_tightening().skipped_why = "by mistake";
  CHECK(standing(job) == "d...");
}

TEST_CASE("what came out again starts again, stripe and all", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  CHECK(progress::Reassembly(job.job(), kDay).progress.finish_of("J01", 1).stripe != nullptr);
  job.out("J01/1");
  const progress::Reassembly now(job.job(), kDay);
  CHECK(standing(now) == ".d.d");
  CHECK(now.progress.finish_of("J01", 1).stripe == nullptr);
  CHECK(now.progress.finish_of("J01", 2).stripe != nullptr);
}

TEST_CASE("work for an earlier specification is no work for the new one", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80);
  CHECK(standing(job) == "dddd");
  job.specified("J01", "90 N·m");
  const progress::Reassembly now(job.job(), kDay);
  CHECK(standing(now) == "....");
  CHECK(now.progress.other_work().size() == 4);
}

TEST_CASE("work counts for the pass that asks for it, whatever its number was", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1", 7, 80, 80);
  CHECK(standing(job) == "..d.");
}

TEST_CASE("a turn outside its window sends the position back to its first pass", "[progress]") {
  JobBuilder job;
  job.wrench().joint("J01", 1).specified("J01", "60 N·m, +60° (55-65)").out("J01/1");
  const auto turn = [&](double degrees) {
    job.tightened("J01/1", 1, 60, 60).tightened("J01/1", 2, 0, 60);
    job.last_tightening().target = {PassKind::Angle, std::nullopt, quantity::Angle::degrees(60)};
    job.last_tightening().setting.reset();
    job.last_tightening().turned = quantity::Angle::degrees(degrees);
  };
  turn(70);
  CHECK(standing(job) == "..");
  CHECK_THAT(remarks(job), ContainsSubstring("70° is outside 55° to 65°"));
  turn(65);
  CHECK(standing(job) == "dd");
  CHECK(remarks(job).empty());
}

TEST_CASE("too much torque sends the position back to its first pass", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1", 2, 80, 88.5);
  CHECK(standing(job) == ".d..");
  CHECK_THAT(remarks(job), ContainsSubstring("over-torque: 88.5 N·m where the final value is 88"));
}

TEST_CASE("work that goes by the plan draws no remark", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56);
  CHECK(remarks(job).empty());
  job.tightened("J01/1", 2, 80, 80);
  CHECK(remarks(job).empty());
}

TEST_CASE("what breaks the plan is said", "[progress]") {
  SECTION("the pass before is open") {
    auto job = two_rounds();
    job.tightened("J01/1", 2, 80, 80);
    CHECK_THAT(remarks(job), ContainsSubstring("pass 1 is still open at J01/1-2"));
  }
  SECTION("another position is next") {
    auto job = two_rounds();
    job.tightened("J01/2", 1, 56, 56);
    CHECK_THAT(remarks(job), ContainsSubstring("the order of pass 1 asks for 1 next"));
  }
  SECTION("it was done already") {
    auto job = two_rounds();
    job.tightened("J01/1", 1, 56, 56).tightened("J01/1", 1, 56, 56);
    CHECK_THAT(remarks(job), ContainsSubstring("pass 1 was done at J01/01 already"));
  }
  SECTION("the setting is another") {
    auto job = two_rounds();
    job.tightened("J01/1", 1, 56, 57);
    CHECK_THAT(remarks(job), ContainsSubstring("asks for 56 N·m here, not 57 N·m"));
  }
  SECTION("the wrench is another, out of range and out of calibration") {
    auto job = two_rounds();
    job.wrench("TW4", "80..400 N·m", "2 N·m", "2024-03-04").tightened("J01/1", 1, 56, 56);
    job.last_tightening().wrench = "TW4";
    const auto text = remarks(job);
    CHECK_THAT(text, ContainsSubstring("TW4 is not to be used at 56 N·m"));
    CHECK_THAT(text, ContainsSubstring("the calibration of TW4 has run out"));
    CHECK_THAT(text, ContainsSubstring("the plan has TW2 for this, not TW4"));
  }
  SECTION("a joint that comes first, or is covered, is not finished") {
    auto job = two_rounds();
    job.joint("J02", 2).specified("J02", "80 N·m").out("J02/1-2");
    job.last_joint().after = {"J01"};
    job.last_joint().covers = {"J01"};
    job.tightened("J02/1", 1, 56, 56);
    const auto text = remarks(job);
    CHECK_THAT(text, ContainsSubstring("J02 comes after J01, and J01 is not finished"));
    CHECK_THAT(text, ContainsSubstring("J02 covers J01, and J01 is not finished"));
  }
}

TEST_CASE("whoever tightened it is not the second person", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56, "KB").tightened("J01/1", 2, 80, 80, "LM");
  const progress::Reassembly now(job.job(), kDay);
  CHECK(progress::is_same_person(now.progress, "J01", 1, "lm"));
  CHECK(progress::is_same_person(now.progress, "J01", 1, "KB"));
  CHECK_FALSE(progress::is_same_person(now.progress, "J01", 2, "LM"));
}

TEST_CASE("counting one tightening more comes to the same as counting all anew", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1", 2, 80, 80);
  job.tightened("J01/2", 2, 120, 80).tightened("J01/2", 1, 56, 56).tightened("J01/2", 2, 80, 80);
  job.tightened("J01/1", 7, 33, 33).tightened("J01/2", 2, 80, 80);
  job.last_tightening().second_check = true;
  const auto all = job.job();
  const progress::Reassembly now(all, kDay);
  auto none = all;
  none.tightenings.clear();
  const progress::Reassembly before(none, kDay);
  std::vector<std::size_t> turns;
  for (std::size_t i = 0; i < all.tightenings.size(); ++i) turns.push_back(i);
  // Whatever the order in which they come, since the order in which they were done counts.
  do {
    progress::Progress counted = before.progress;
    for (const auto turn : turns) counted.count(all.tightenings[turn]);
    for (std::size_t i = 0; i < now.progress.steps().size(); ++i) {
      const auto& expected = now.progress.steps()[i];
      const auto& step = counted.steps()[i];
      REQUIRE(step.stands == expected.stands);
      REQUIRE((step.entry == nullptr) == (expected.entry == nullptr));
      if (step.entry != nullptr) REQUIRE(step.entry->stamp.id == expected.entry->stamp.id);
    }
    REQUIRE(counted.other_work().size() == now.progress.other_work().size());
    for (int position = 1; position <= 2; ++position) {
      REQUIRE((counted.finish_of("J01", position).second_check == nullptr) ==
              (now.progress.finish_of("J01", position).second_check == nullptr));
    }
  } while (std::ranges::next_permutation(turns).found);
}

TEST_CASE("a stripe that turned sends the position back to be slackened first", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  CHECK(standing(job) == "dddd");
  job.rechecked("J01/1", 20.0);
  const progress::Reassembly turned(job.job(), kDay);
  REQUIRE(turned.progress.steps_of("J01", 1).size() == 3);
  const auto* next = turned.progress.next();
  REQUIRE(next != nullptr);
  CHECK(next->position == 1);
  CHECK(next->planned().pass.kind == PassKind::Loosen);
  CHECK(turned.progress.has_final_value("J01", 2));
  CHECK_FALSE(turned.progress.has_final_value("J01", 1));
  CHECK(turned.progress.finish_of("J01", 1).stripe == nullptr);
  CHECK(turned.progress.finish_of("J01", 1).drawn != nullptr);
  CHECK(turned.progress.finish_of("J01", 2).stripe != nullptr);
  // Striped anew, or brought to its final value without being slackened: neither mends it.
  job.striped("J01/1").tightened("J01/1", 3, 80, 80).striped("J01/1");
  const progress::Reassembly painted(job.job(), kDay);
  CHECK(painted.progress.finish_of("J01", 1).turned != nullptr);
  CHECK(painted.progress.finish_of("J01", 1).stripe == nullptr);
  CHECK_THAT(progress::why_no_stripe(painted, "J01", {1, 2}, kMoment),
             ContainsSubstring("J01/01 was found turned by 20°"));
  job.slackened("J01/1").tightened("J01/1", 2, 56, 56).tightened("J01/1", 3, 80, 80);
  const progress::Reassembly again(job.job(), kDay);
  CHECK(again.progress.next() == nullptr);
  CHECK(again.progress.finish_of("J01", 1).stripe == nullptr);
  CHECK(progress::why_no_stripe(again, "J01", {1, 2}, kMoment).empty());
  job.striped("J01/1");
  const progress::Reassembly mended(job.job(), kDay);
  CHECK(mended.progress.finish_of("J01", 1).stripe != nullptr);
  CHECK(mended.progress.finish_of("J01", 1).turned == nullptr);
}

TEST_CASE("a slackening that is left out does not finish a turned position", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  job.rechecked("J01/1", 20.0).slackened("J01/1");
  job.last_tightening().skipped_why = "no time";
  job.tightened("J01/1", 2, 56, 56).tightened("J01/1", 3, 80, 80).striped("J01/1");
  const progress::Reassembly now(job.job(), kDay);
  CHECK_FALSE(now.progress.has_final_value("J01", 1));
  CHECK(now.progress.finish_of("J01", 1).stripe == nullptr);
}

TEST_CASE("what came out after its stripe turned goes by the plan of all others", "[progress]") {
  auto job = two_rounds();
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  job.rechecked("J01/1", 20.0).out("J01/1");
  const progress::Reassembly now(job.job(), kDay);
  CHECK(now.progress.steps_of("J01", 1).size() == 2);
  CHECK(now.progress.finish_of("J01", 1).turned == nullptr);
}

TEST_CASE("a stripe stands for the final value only", "[progress]") {
  SECTION("drawn before it was reached") {
    auto job = two_rounds();
    job.tightened("J01/1-2", 1, 56, 56).striped("J01/1-2").tightened("J01/1-2", 2, 80, 80);
    CHECK(progress::Reassembly(job.job(), kDay).progress.finish_of("J01", 1).stripe == nullptr);
  }
  SECTION("tightened after it") {
    auto job = two_rounds();
    job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
    job.tightened("J01/1", 2, 80, 80);
    const progress::Reassembly now(job.job(), kDay);
    CHECK(now.progress.finish_of("J01", 1).stripe == nullptr);
    CHECK(now.progress.finish_of("J01", 2).stripe != nullptr);
  }
  SECTION("entered late, with its own earlier time") {
    auto job = two_rounds();
    job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
    auto late = job.job();
    late.stripes.back().stamp.done_at -= std::chrono::minutes(1);
    CHECK(progress::Reassembly(late, kDay).progress.finish_of("J01", 1).stripe != nullptr);
    late.stripes.back().stamp.done_at -= std::chrono::minutes(2);
    CHECK(progress::Reassembly(late, kDay).progress.finish_of("J01", 1).stripe == nullptr);
  }
}

TEST_CASE("an angle without a window is held against the assumed one", "[progress]") {
  JobBuilder job;
  job.wrench().joint("J01", 1).specified("J01", "20 N·m, +90°").out("J01/1");
  const auto turn = [&](double degrees) {
    job.tightened("J01/1", 1, 20, 20).tightened("J01/1", 2, 0, 20);
    job.last_tightening().target = {PassKind::Angle, std::nullopt, quantity::Angle::degrees(90)};
    job.last_tightening().setting.reset();
    job.last_tightening().turned = quantity::Angle::degrees(degrees);
  };
  turn(180);
  CHECK(standing(job) == "..");
  CHECK_THAT(remarks(job), ContainsSubstring("180° is outside 85° to 95° (assumed"));
  turn(95);
  CHECK(standing(job) == "dd");
  CHECK(remarks(job).empty());
  auto wider = job.job();
  wider.tightenings.back().content.turned = quantity::Angle::degrees(99);
  CHECK(standing(progress::Reassembly(wider, kDay)) == "..");
  wider.start.angle_window = quantity::Angle::degrees(10);
  CHECK(standing(progress::Reassembly(wider, kDay)) == "dd");
}

}  // namespace progress_test
