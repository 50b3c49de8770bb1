#include "progress/open_list.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace open_list_test {

namespace {

constexpr record::Day kDay{std::chrono::year{2026}, std::chrono::June, std::chrono::day{2}};

std::string open(const JobBuilder& job) {
  const progress::Reassembly now(job.job(), kDay);
  std::string text;
  for (const auto& point : progress::open_list(now, record::read_moment("2026-06-02T12:00Z"))) {
    text += point.says + "\n";
  }
  return text;
}

// One joint of two, tightened and striped: nothing is open.
JobBuilder finished() {
  JobBuilder job;
  job.wrench().joint("J01", 2).specified("J01", "80 N·m").out("J01/1-2");
  job.last_removal().bag = "A";
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  return job;
}

}  // namespace

TEST_CASE("nothing is open once every stripe is drawn", "[progress]") {
  CHECK(open(finished()).empty());
}

TEST_CASE("what is open is named until it is done", "[progress]") {
  JobBuilder job;
  job.wrench().joint("J01", 2).specified("J01", "80 N·m").out("J01/1-2");
  CHECK(open(job) ==
        "J01/1-2: pass 1 open: TW2 at 56 N·m\nJ01/1-2: pass 2 open: TW2 at 80 N·m\n"
        "J01: 2 of 2 final stripes missing\n");
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/2", 2, 80, 80);
  job.last_tightening().skipped_why = "stud missing";
  CHECK(open(job) ==
        "J01/01: pass 2 open: TW2 at 80 N·m\nJ01/02: pass 2 left out, stud missing\n"
        "J01: 2 of 2 final stripes missing\n");
}

TEST_CASE("a critical joint is open until a second person has checked it", "[progress]") {
  auto job = finished();
  job.last_joint().critical = true;
  CHECK(open(job) == "J01: 2 of 2 positions not checked by a second person\n");
  job.tightened("J01/1-2", 2, 80, 80, "LM");
  job.last_tightening().second_check = true;
  CHECK(open(job).empty());
}

TEST_CASE("bags are counted by what reached its final value", "[progress]") {
  auto job = finished();
  job.joint("J02", 3).specified("J02", "80 N·m").out("J02/1-2");
  job.last_removal().bag = "A";
  job.out("J02/3", record::BreakLoose::Empty);
  job.last_removal().bag = "A";
  const progress::Reassembly now(job.job(), kDay);
  const auto bags = progress::bag_counts(now);
  REQUIRE(bags.size() == 1);
  CHECK(bags.front().out == 4);
  CHECK(bags.front().back == 2);
  CHECK(progress::joint_counts(now).back().out == 2);
}

TEST_CASE("a found-torque test that is under way is open until it is entered", "[progress]") {
  JobBuilder job;
  job.wrench().joint("J01", 2).specified("J01", "80 N·m").out("J01/1-2").pulled("J01/2", "60s");
  CHECK_THAT(open(job),
             ContainsSubstring("J01/02: its found-torque test is under way, bench J01/02\n"));
  auto entered = job;
  entered.found("J01/2", "60s 70o");
  CHECK(open(entered).find("under way") == std::string::npos);
  job.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  CHECK(open(job).empty());
}

}  // namespace open_list_test
