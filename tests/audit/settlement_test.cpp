// A decision holds for the evidence that it was made on, and for no other.

#include "audit/settlement.h"

#include <functional>
#include <set>

#include "audit/evidence.h"
#include "record/deviation_id.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace {

JobBuilder with_low_finding() {
  return JobBuilder().wrench().joint("J01").specified("J01").out("J01/1-4").found("J01/2",
                                                                                  "60s 64s 65o");
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
  job.dispositions.push_back(
      {stamp,
       {id, deviation->rule, deviation->joint, deviation->position, deviation->evidence,
        deviation->says, record::Decision::ReTorque, "gasket has settled", ""}});
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
  const auto job =
      settled(with_low_finding().found("J01/3", "60s 64s 65o").job(), "found-low:J01/02");
  CHECK_FALSE(is_settled(job, "found-low:J01/03"));
  CHECK_FALSE(audit_of(job).ready());
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
  CHECK(opens([](auto& job) { job.found("J01/2", "60s 63s 64o"); }));
  CHECK(opens([](auto& job) { job.found("J01/2", "60s 64s 65o"); }));  // the same once more
  CHECK(opens([](auto& job) { job.specified("J01", "85 N·m"); }));
  // What changes nothing about it leaves it settled.
  CHECK_FALSE(opens([](auto& job) { job.found("J01/3", "60s 64s 65o"); }));
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
  builder.found("J01/2", "60s 64s 65o");
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

TEST_CASE("evidence that is as it was lets the decision on it hold again", "[audit]") {
  const std::string id = "found-low:J01/02";
  const auto before = settled(with_low_finding().job(), id);
  auto both = with_low_finding().found("J01/2", "60s 63s 64o").job();
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
                       .found("J01/3", "60s 64s 65o")
                       .found("J09/1", "60s 80o")
                       .found("J09/1", "60s 80o")
                       .out("J01/7-9")
                       .job();
  std::set<std::string> ids;
  for (const auto& deviation : audit_of(job).deviations) CHECK(ids.insert(deviation.id).second);
  CHECK(ids.size() >= 7);
}
