// The order of reassembly on paper: what has to be so before a joint, and what is done already.

#include "paper/sequence_page.h"

#include "progress/reassembly.h"
#include "support/catch.h"
#include "support/html_check.h"
#include "support/job_builder.h"
#include "support/occurrences.h"

namespace sequence_page_test {

namespace {

// Four bolts at 80 N·m in two rounds and a check.
JobBuilder cover() {
  JobBuilder builder;
  builder.wrench().joint("J06").specified("J06").out("J06/1-4");
  return builder;
}

std::string page_of(record::Job job) {
  const progress::Reassembly now(std::move(job), record::read_day("2026-06-02"));
  const auto audit = audit::run({now.job, now.survey, record::read_moment("2026-06-02T08:00:00Z")});
  return paper::sequence_page({now.job, now.survey, now.plan, now.progress, audit},
                              {"GB-1", record::read_moment("2026-06-02T08:00:00Z"), 9});
}

std::string text_of(const record::Job& job) { return text_of_page(page_of(job)); }

std::size_t ticked(const std::string& page) { return occurrences(page, "ticked\" role"); }

}  // namespace

TEST_CASE("a pass that is done names who did it, one under way has its boxes ticked", "[paper]") {
  auto builder = cover();
  const auto before = page_of(builder.job());
  CHECK(ticked(before) == 0);
  builder.tightened("J06/1-4", 1, 56, 56, "KB").tightened("J06/1,3", 2, 80, 80, "LM");
  const auto page = page_of(builder.job());
  CHECK(ticked(page) == 3);  // the first pass, and two positions of the second
  const auto text = text_of_page(page);
  CHECK_THAT(text, ContainsSubstring("Done: 1-4 by KB, 2026-06-01 ") &&
                       ContainsSubstring("Done: 1,3 by LM, 2026-06-01 ") &&
                       ContainsSubstring("6 of 12 steps"));
  // The first pass needs its boxes no more.
  CHECK(occurrences(before, "class=\"cells\"") - occurrences(page, "class=\"cells\"") == 1);
}

TEST_CASE("what was left out says so and why", "[paper]") {
  auto builder = cover();
  builder.tightened("J06/2", 1, 56, 56);
  builder.last_tightening().skipped_why = "no access";
  const auto page = page_of(builder.job());
  CHECK(ticked(page) == 0);
  CHECK_THAT(text_of_page(page), ContainsSubstring("Left out: 2 by KB: no access"));
}

TEST_CASE("a joint that is finished has nothing left to sign", "[paper]") {
  auto builder = cover();
  builder.tightened("J06/1-4", 1, 56, 56).tightened("J06/1-4", 2, 80, 80);
  builder.tightened("J06/1-4", 3, 80, 80);
  builder.last_tightening().target.kind = record::PassKind::Check;
  CHECK(occurrences(page_of(builder.job()), "class=\"blank\"") == 2);
  builder.striped("J06/1-4");
  const auto page = page_of(builder.job());
  CHECK(occurrences(page, "class=\"blank\"") == 0);
  CHECK(ticked(page) == 5);  // three passes, the stripe, and the joint in the order
}

TEST_CASE("what has to be so before a joint stands on its page", "[paper]") {
  auto builder = cover();
  builder.last_joint().one_time = true;
  builder.renewed("J06/1-3");
  auto job = builder.job();
  const auto stamp = job.renewals.front().stamp;
  job.hold_points.push_back({stamp, {"HV", "rails dead", std::nullopt, {"J06"}}});
  job.items.push_back({stamp, {"CL1", "hose clips", 6, "J06"}});
  job.item_returns.push_back({stamp, {"CL1", 4}});
  const auto text = text_of(job);
  CHECK_THAT(text, ContainsSubstring("Hold point HV, rails dead: not passed") &&
                       ContainsSubstring("New fasteners are here: at 1-3") &&
                       ContainsSubstring("New fasteners have yet to come: at 4") &&
                       ContainsSubstring("CL1, hose clips: 6 off, 4 back, 2 missing"));

  job.hold_points.front().content.joints = {"J07"};
  job.items.front().content.before.clear();
  const auto other = text_of(job);
  CHECK(other.find("Hold point HV, rails dead") == std::string::npos);
  CHECK(other.find("Back before it is closed") == std::string::npos);
}

TEST_CASE("the looks that a pass rule and the joint ask for can be signed", "[paper]") {
  auto builder = cover();
  builder.last_joint().passes = "legacy-flange-rounds";
  builder.last_joint().rechecks = {record::read_recheck_interval("50 running h")};
  const auto text = text_of(builder.job());
  CHECK_THAT(text, ContainsSubstring("Looked at again after 4 h by") &&
                       ContainsSubstring("Re-check after 50 running h by"));
}

TEST_CASE("a pass that is done shows the wrench that was used, not what would be taken today",
          "[paper]") {
  auto builder = cover();
  builder.wrench("TW9", "10..100 N·m", "0.5 N·m");
  builder.tightened("J06/1-4", 1, 56, 57).tightened("J06/1-4", 2, 80, 80);
  auto job = builder.job();
  for (auto& entry : job.tightenings) entry.content.wrench = "TW9";
  for (auto& entry : job.wrenches) entry.content.calibrated = record::read_day("2020-01-01");
  const auto page = page_of(job);
  const auto text = text_of_page(page);
  CHECK_THAT(text, ContainsSubstring("Done: 1-4 by KB, 2026-06-01 ") &&
                       ContainsSubstring(", TW9 at 57 N·m"));
  CHECK(occurrences(page, "class=\"with\">TW9<") == 2);
  // The check round is still to be done, and no wrench is fit for it today.
  CHECK(occurrences(page, ">no wrench<") == 1);
}

TEST_CASE("every row of the sequence names joint and pass, which stand again on the next page",
          "[paper]") {
  const auto page = page_of(cover().job());
  CHECK(occurrences(page, "<thead><tr><th scope=\"col\" style=\"width:42mm\">J06</th>") == 4);
  for (const auto* title :
       {">Pass 1 of 3: ", ">Pass 2 of 3: ", ">Pass 3 of 3: ", ">Final stripe"}) {
    INFO(title);
    CHECK(occurrences(page, title) == 1);
  }
}

TEST_CASE("a pass that is done is not large, and a joint that is done may be parted", "[paper]") {
  auto builder = cover();
  builder.tightened("J06/1-4", 1, 56, 56).tightened("J06/1-4", 2, 80, 80);
  const auto under_way = page_of(builder.job());
  CHECK(occurrences(under_way, "class=\"set\"") == 1);
  CHECK(occurrences(under_way, "joint whole") == 1);
  builder.tightened("J06/1-4", 3, 80, 80);
  builder.last_tightening().target.kind = record::PassKind::Check;
  builder.striped("J06/1-4");
  const auto done = page_of(builder.job());
  CHECK(occurrences(done, "class=\"set\"") == 0);
  CHECK(occurrences(done, "joint whole") == 0);
}

TEST_CASE("a few stripes are signed beside their cells, more below the word", "[paper]") {
  CHECK(occurrences(page_of(cover().job()), "class=\"beside\"") == 1);
  JobBuilder many;
  many.wrench().joint("J06", 8).specified("J06").out("J06/1-8");
  const auto page = page_of(many.job());
  CHECK(occurrences(page, "class=\"beside\"") == 0);
  CHECK(occurrences(page, "class=\"write\"") == 1);
}

TEST_CASE("a joint whose final value waits has a page for each stage", "[paper]") {
  auto builder = cover();
  builder.last_joint().final_when = "the box is loaded";
  const auto page = page_of(builder.job());
  CHECK(occurrences(page, "class=\"code\">J06<") == 2);
  CHECK_THAT(text_of_page(page),
             ContainsSubstring("Left open; its final value when the box is loaded") &&
                 ContainsSubstring("Not before this: the box is loaded"));
}

}  // namespace sequence_page_test
