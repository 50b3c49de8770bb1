#include "finding/ways_out.h"

#include "finding/survey.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace ways_out_test {

namespace {

using record::BreakLoose;
using record::DamagedThread;

// Each line that tells how a fastener came out in a copy of its own.
record::Job each_apart(record::Job job) {
  int chain = 0;
  for (const auto& out : job.removals) job.apart.add(out.stamp.id, {0, chain++, 0, nullptr});
  return job;
}

// How it came out by these lines, in the order done.
record::Removal together(const std::vector<record::Removal>& lines) {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01");
  for (const auto& line : lines) {
    job.out("J01/1");
    job.last_removal() = line;
    job.last_removal().joint = "J01";
    job.last_removal().positions = {1};
  }
  const auto whole = each_apart(job.job());
  const auto survey = finding::survey(whole);
  const auto& position = survey.joints.front().at(1);
  REQUIRE(position.removal != nullptr);
  CHECK(position.outs.size() == (lines.size() < 2 ? 0 : lines.size()));
  return position.removal->content;
}

record::Removal broke(BreakLoose how) {
  record::Removal removal;
  removal.broke = how;
  return removal;
}

}  // namespace

TEST_CASE("of two ways in which a fastener came out the worse counts, whichever is later",
          "[finding]") {
  for (const auto how : {BreakLoose::Tight, BreakLoose::Seized, BreakLoose::AlreadyLoose,
                         BreakLoose::Sheared, BreakLoose::Empty}) {
    CHECK(together({broke(how), broke(BreakLoose::Normal)}).broke == how);
    CHECK(together({broke(BreakLoose::Normal), broke(how)}).broke == how);
  }
  CHECK(together({broke(BreakLoose::Sheared), broke(BreakLoose::Empty)}).broke ==
        BreakLoose::Sheared);
}

TEST_CASE("what each line alone tells of a fastener is all told", "[finding]") {
  auto torn = broke(BreakLoose::Normal);
  torn.damaged_thread = DamagedThread::Fastener;
  torn.other_size = "M12x1.5";
  torn.note = "rusty";
  auto other = broke(BreakLoose::Normal);
  other.damaged_thread = DamagedThread::Hole;
  other.marked = false;
  other.bag = "A1";
  other.note = "stiff";
  const auto all = together({torn, other});
  CHECK(all.damaged_thread == DamagedThread::Both);
  CHECK(all.other_size == "M12x1.5");
  CHECK_FALSE(all.marked);
  CHECK(all.bag == "A1");
  CHECK(all.note == "rusty; stiff");
}

TEST_CASE("lines that say the same dispute nothing", "[finding]") {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01").out("J01/1-4").out("J01/1");
  const auto whole = each_apart(job.job());
  const auto survey = finding::survey(whole);
  CHECK(survey.joints.front().at(1).outs.size() == 2);
  CHECK_FALSE(survey.joints.front().at(1).is_out_disputed);
  CHECK(survey.joints.front().at(2).outs.empty());
  CHECK(survey.read_together.empty());
}

TEST_CASE("what came out before it went back in disputes nothing", "[finding]") {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01").out("J01/1", BreakLoose::Sheared);
  job.tightened("J01/1", 1, 80, 80).out("J01/1");
  const auto whole = each_apart(job.job());
  const auto survey = finding::survey(whole);
  CHECK(survey.joints.front().at(1).removal->content.broke == BreakLoose::Normal);
  CHECK(survey.joints.front().at(1).outs.empty());
}

}  // namespace ways_out_test
