// A decision holds for the evidence that it was made on, and for no other.

#include "audit/settlement.h"

#include <functional>
#include <set>

#include "audit/evidence.h"
#include "record/deviation_id.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace settlement_test {

namespace {

JobBuilder with_low_finding() {
  return JobBuilder().wrench().joint("J01").specified("J01").out("J01/1-4").found(
      "J01/2", "50s 54s 55o 56p");
}

audit::Audit audit_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, record::read_moment("2026-06-02T08:00:00Z")});
}

// The job with a decision on its deviation of this id.
record::Job settled(record::Job job, const std::string& id) {
  const auto audit = audit_of(job);
  const auto* deviation = audit::deviation_in(audit, id);
  REQUIRE(deviation != nullptr);
  record::Stamp stamp;
  stamp.id = "01970000-0000-7000-8000-000000009999";
  stamp.by = "KB";
  stamp.done_at = record::read_moment("2026-06-01T20:00:00Z");  // after every line
  auto disposition = audit::disposition_about(*deviation, id);
  disposition.decision = record::Decision::ReTorque;
  disposition.reason = "gasket has settled";
  job.dispositions.push_back({stamp, disposition});
  return job;
}

// Whether the deviation of this id is settled in the job; it must be there.
bool is_settled(const record::Job& job, const std::string& id) {
  const auto audit = audit_of(job);
  const auto* deviation = audit::deviation_in(audit, id);
  REQUIRE(deviation != nullptr);
  CHECK((deviation->settled == nullptr || deviation->settled_before == nullptr));
  return deviation->settled != nullptr;
}

}  // namespace

TEST_CASE("FNV-1a agrees with the values published with it", "[audit]") {
  // draft-eastlake-fnv, appendix with 64-bit FNV-1a test vectors (from memory).
  CHECK(audit::fnv1a("") == "cbf29ce484222325");
  CHECK(audit::fnv1a("a") == "af63dc4c8601ec8c");
  CHECK(audit::fnv1a("foobar") == "85944171f73967e8");
}

TEST_CASE("a settled hold is no hold any more", "[audit]") {
  const auto open = with_low_finding().job();
  CHECK_FALSE(audit_of(open).ready());
  const auto job = settled(open, "found-low:J01/02");
  CHECK(is_settled(job, "found-low:J01/02"));
  CHECK(audit_of(job).ready());
  CHECK(audit_of(job).open(audit::Level::Hold) == 0);
}

TEST_CASE("a decision on one position is none on another", "[audit]") {
  const auto job = settled(with_low_finding().job(), "found-low:J01/02");
  auto other = with_low_finding().found("J01/3", "30s 34s 35o 36p").job();
  other.dispositions = job.dispositions;
  CHECK(is_settled(other, "found-low:J01/02"));
  CHECK_FALSE(is_settled(other, "found-low:J01/03"));
  CHECK_FALSE(audit_of(other).ready());
}

TEST_CASE("new evidence opens a settled deviation again", "[audit]") {
  const std::string id = "found-low:J01/02";
  const auto base = settled(with_low_finding().job(), id);
  // What the builder adds to the same job beyond the decision.
  const auto with = [&](const std::function<void(JobBuilder&)>& add) {
    auto builder = with_low_finding();
    add(builder);
    auto job = builder.job();
    job.dispositions = base.dispositions;
    return job;
  };
  const auto opens = [&](const std::function<void(JobBuilder&)>& add) {
    const auto job = with(add);
    if (is_settled(job, id)) return false;
    const auto audit = audit_of(job);
    return audit::deviation_in(audit, id)->settled_before == &job.dispositions[0];
  };
  CHECK(opens([](auto& job) { job.found("J01/2", "56s 60s 61o 62p"); }));
  CHECK(opens([](auto& job) { job.found("J01/2", "50s 54s 55o 56p"); }));  // the same once more
  CHECK(opens([](auto& job) { job.specified("J01", "85 N·m"); }));
  // What changes nothing about it leaves it settled.
  CHECK_FALSE(opens([](auto& job) { job.found("J01/3", "30s 34s 35o 36p"); }));
  CHECK_FALSE(opens([](auto& job) { job.joint("J02"); }));
  CHECK_FALSE(opens([](auto& job) { job.specified("J01", "80 N·m"); }));
  CHECK_FALSE(opens([](auto& job) { job.tightened("J01/2", 1, 56, 56); }));
  // Once it went back and came out again, what was found before is history and no deviation.
  const auto again = with([](auto& job) { job.tightened("J01/2", 1, 56, 56).out("J01/2"); });
  const auto of_again = audit_of(again);
  CHECK_FALSE(opens([](auto& job) { job.out("J01/2"); }));  // only written down twice
  CHECK(audit::deviation_in(of_again, id) == nullptr);
}

TEST_CASE("what is open again names the lines that came after the decision", "[audit]") {
  const std::string id = "found-low:J01/02";
  auto before = settled(with_low_finding().job(), id);
  before.dispositions[0].stamp.entered_at = before.findings[0].stamp.entered_at;
  auto builder = with_low_finding();
  builder.found("J01/2", "50s 54s 55o 56p");
  auto job = builder.job();
  job.dispositions = before.dispositions;
  const auto audit = audit_of(job);
  CHECK(audit::deviation_in(audit, id)->lines_since == std::vector{job.findings[1].stamp.line});
  // Struck instead: nothing came after it.
  job.findings.erase(job.findings.begin());
  job.findings[0].stamp.entered_at = before.findings[0].stamp.entered_at;
  const auto struck = audit_of(job);
  REQUIRE(audit::deviation_in(struck, id)->settled_before != nullptr);
  CHECK(audit::deviation_in(struck, id)->lines_since.empty());
}

TEST_CASE("what was decided of a finding that was put right since is not to be done", "[audit]") {
  const auto builder = [] { return with_low_finding().found("J01/3", "50s 54s 55o 56p"); };
  const auto before = builder().job();
  const auto audit = audit_of(before);
  const auto low = std::ranges::find_if(audit.deviations, [](const audit::Deviation& deviation) {
    return deviation.rule == "found low" && deviation.parts.size() == 2;
  });
  REQUIRE(low != audit.deviations.end());
  auto job = settled(before, low->id);
  REQUIRE(audit_of(job).to_do.front().open == std::vector{2, 3});
  auto right = with_low_finding().found("J01/3", "78s 79s 80o 81p").job();
  right.dispositions = job.dispositions;
  CHECK(audit_of(right).to_do.front().open == std::vector{2});
}

TEST_CASE("a late line from before it came out opens no decision again", "[audit]") {
  JobBuilder builder;
  builder.wrench().joint("J01", 2).specified("J01").out("J01/1-2");
  builder.tightened("J01/1-2", 1, 56, 56).tightened("J01/2", 2, 80, 120);
  const std::string id = "over-torqued:J01/02";
  auto job = settled(builder.job(), id);
  auto late = job.tightenings.front();
  late.stamp.id = "01970000-0000-7000-8000-00000000aaaa";
  late.stamp.done_at = job.removals.front().stamp.done_at - std::chrono::hours(1);
  job.tightenings.push_back(late);
  CHECK(is_settled(job, id));
  // One from after that is another matter.
  job.tightenings.back().stamp.done_at =
      job.removals.front().stamp.done_at + std::chrono::seconds(1);
  CHECK_FALSE(is_settled(job, id));
}

TEST_CASE("what is done about a turned stripe leaves the decision on it standing", "[audit]") {
  JobBuilder builder;
  builder.wrench().joint("J01", 2).specified("J01").out("J01/1-2");
  builder.tightened("J01/1-2", 1, 56, 56).tightened("J01/1-2", 2, 80, 80).striped("J01/1-2");
  builder.rechecked("J01/1", 20.0);
  const std::string id = "stripe-turned:J01/01";
  const auto decided = settled(builder.job(), id);
  builder.slackened("J01/1").tightened("J01/1", 2, 56, 56).tightened("J01/1", 3, 80, 80);
  auto job = builder.job();
  job.dispositions = decided.dispositions;
  CHECK(is_settled(job, id));
  // Found turned once more, that is another.
  builder.striped("J01/1").rechecked("J01/1", 20.0);
  job = builder.job();
  job.dispositions = decided.dispositions;
  CHECK_FALSE(is_settled(job, id));
}

TEST_CASE("evidence that is as it was lets the decision on it hold again", "[audit]") {
  const std::string id = "found-low:J01/02";
  const auto before = settled(with_low_finding().job(), id);
  auto both = with_low_finding().found("J01/2", "56s 60s 61o 62p").job();
  both.dispositions = before.dispositions;
  both = settled(both, id);
  CHECK(is_settled(both, id));
  both.findings.pop_back();  // as if the second finding were struck
  CHECK(is_settled(both, id));
  const auto audit = audit_of(both);
  CHECK(audit::deviation_in(audit, id)->settled == &both.dispositions[0]);
}

TEST_CASE("numbers of lines are no evidence, they differ in a merged copy", "[audit]") {
  auto job = with_low_finding().specified("J01", "85 N·m", "Bulletin 7").job();
  const std::string id = "sources-disagree:J01";
  const auto before = settled(job, id);
  auto renumbered = before;
  for (auto& entry : renumbered.specifications) entry.stamp.line += 40;
  CHECK(is_settled(renumbered, id));
  auto other = before;
  other.specifications[0].content.procedure = record::read_specification("75 N·m");
  CHECK_FALSE(is_settled(other, id));
}

TEST_CASE("an id is known however it is typed, and every id is there once", "[audit]") {
  CHECK(record::same_deviation_id("found-low:J01/02", "Found-Low:j01/2"));
  CHECK_FALSE(record::same_deviation_id("found-low:J01/02", "found-low:J01/20"));
  CHECK_FALSE(record::same_deviation_id("found-low:J01/02", "found-low:J01"));
  const auto job = with_low_finding()
                       .found("J01/3", "50s 54s 55o 56p")
                       .found("J09/1", "60s 80o")
                       .found("J09/1", "60s 80o")
                       .out("J01/7-9")
                       .job();
  std::set<std::string> ids;
  for (const auto& deviation : audit_of(job).deviations) CHECK(ids.insert(deviation.id).second);
  // The two low ones, the two strays of J09 and the three of J01 each together.
  CHECK(ids == std::set<std::string>{"found-low:J01", "stray-entry:J01", "stray-entry:J09"});
}

TEST_CASE("a decision from before schema step 9 holds where its evidence is as it was", "[audit]") {
  const std::string id = "found-low:J01/02";
  auto job = with_low_finding().job();
  const auto audit = audit_of(job);
  // By hand, as it was made then: level, words of the sentence with a figure, ids of the lines.
  const auto& removal = job.removals[0].stamp.id;
  const auto& finding = job.findings[0].stamp.id;
  // Then it said "found 55 ±3.6 N·m (grade A), specified 72 to 88 N·m (tolerance assumed)".
  REQUIRE(audit::deviation_in(audit, id)->says ==
          "found 55.0 ±3.6 N·m (grade A), specified 72 to 88 N·m (tolerance assumed)");
  record::Disposition old;
  old.deviation = id;
  old.evidence = audit::fnv1a("hold\n55 ±3.6 72 88 \n" + removal + "\n" + finding);
  job.dispositions.push_back(
      {{"z", 99, "KB", record::read_moment("2026-06-01T20:00:00Z"), {}, ""}, old});
  CHECK(is_settled(job, id));
  auto moved = job;
  for (auto& reading : moved.findings[0].content.readings) reading.setting += 1.0;
  CHECK_FALSE(is_settled(moved, id));
}

TEST_CASE("alike findings of a joint are one deviation, and decisions hold part by part",
          "[audit]") {
  auto builder =
      with_low_finding().found("J01/3", "50s 54s 55o 56p").found("J01/1", "30s 34s 35o 36p");
  const auto audit = audit_of(builder.job());
  const auto* together = audit::deviation_in(audit, "found-low:J01");
  REQUIRE(together != nullptr);
  CHECK(together->positions == std::vector{2, 3});
  CHECK_FALSE(together->position);
  CHECK(audit::deviation_in(audit, "found-low:j01/3") == together);
  // One far from the ratio of the others stands for itself.
  CHECK(audit::deviation_in(audit, "found-low:J01/1")->position == 1);

  auto job = settled(builder.job(), "found-low:J01");
  REQUIRE(job.dispositions[0].content.parts.size() == 2);
  CHECK(is_settled(job, "found-low:J01"));
  // One that joins is open, and the others stay settled.
  auto more = builder.found("J01/4", "50s 54s 55o 56p").job();
  more.dispositions = job.dispositions;
  const auto joined = audit_of(more);
  const auto* four = audit::deviation_in(joined, "found-low:J01");
  REQUIRE(four->positions == std::vector{2, 3, 4});
  CHECK(four->settled == nullptr);
  CHECK(audit::open_positions(*four) == std::vector{4});
  CHECK(audit::disposition_about(*four, "found-low:J01").parts.size() == 1);
  // One that is left keeps its own id and its decision.
  more.findings.pop_back();
  std::erase_if(more.findings, [](const auto& entry) { return entry.content.position == 3; });
  CHECK(is_settled(more, "found-low:J01/02"));
}

TEST_CASE("a decision on one of several is none on the others", "[audit]") {
  const auto job =
      settled(with_low_finding().found("J01/3", "50s 54s 55o 56p").job(), "found-low:J01/3");
  const auto audit = audit_of(job);
  const auto* together = audit::deviation_in(audit, "found-low:J01");
  CHECK(together->settled == nullptr);
  CHECK(audit::open_positions(*together) == std::vector{2});
}

TEST_CASE("what is decided is not done before the line that says so", "[audit]") {
  const std::string id = "damaged-thread:J01/03";
  auto builder = JobBuilder().wrench().joint("J01").specified("J01").out("J01/1-2,4").out("J01/3");
  builder.last_removal().damaged_thread = record::DamagedThread::Hole;
  auto job = settled(builder.job(), id);
  job.dispositions[0].content.decision = record::Decision::Repair;
  const auto decided = audit_of(job);
  CHECK(decided.ready());
  REQUIRE(decided.to_do.size() == 1);
  CHECK(audit::to_do_of(decided, *audit::deviation_in(decided, id)).size() == 1);
  CHECK(audit::to_do_besides(decided).empty());
  auto done = audit::carried_out(*audit::deviation_in(decided, id), id);
  REQUIRE(done);
  CHECK(done->decision == record::Decision::Repair);
  done->done = "thread insert fitted";
  auto stamp = job.dispositions[0].stamp;
  stamp.id += "1";
  job.dispositions.push_back({stamp, *done});
  CHECK(audit_of(job).to_do.empty());
  CHECK(is_settled(job, id));
  const auto closed = audit_of(job);
  CHECK_FALSE(audit::carried_out(*audit::deviation_in(closed, id), id));
}

TEST_CASE("a record that was to be corrected is so once it says something else", "[audit]") {
  const std::string id = "sources-disagree:J01";
  auto job = settled(with_low_finding().specified("J01", "85 N·m", "Bulletin 7").job(), id);
  job.dispositions[0].content.decision = record::Decision::CorrectRecord;
  CHECK(audit_of(job).to_do.size() == 1);
  job.specifications.pop_back();  // as if it were struck
  CHECK(audit_of(job).to_do.empty());
}

}  // namespace settlement_test
