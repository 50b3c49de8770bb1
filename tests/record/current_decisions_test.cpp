#include "record/current_decisions.h"

#include "support/catch.h"

namespace current_decisions_test {

using record::Decision;

namespace {

record::Job job_with(const std::vector<record::Disposition>& dispositions) {
  record::Job job;
  for (const auto& disposition : dispositions) {
    record::Stamp stamp;
    stamp.line = static_cast<std::int64_t>(job.dispositions.size()) + 1;
    job.dispositions.push_back({stamp, disposition});
  }
  return job;
}

record::Disposition alone(const std::string& deviation, std::optional<int> position,
                          Decision decision = Decision::Renew) {
  record::Disposition disposition;
  disposition.deviation = deviation;
  disposition.joint = "J06";
  disposition.position = position;
  disposition.decision = decision;
  return disposition;
}

record::Disposition together(const std::vector<int>& positions) {
  auto disposition = alone("found-low:J06", std::nullopt, Decision::ReTorque);
  for (const int position : positions) {
    disposition.parts.push_back({"found-low:J06/0" + std::to_string(position), position, ""});
  }
  return disposition;
}

}  // namespace

TEST_CASE("of several decisions about one matter the latest counts", "[record]") {
  const auto job = job_with({alone("found-low:J06/03", 3), alone("found-low:J06", std::nullopt),
                             alone("Found-Low:j06/3", 3, Decision::UseAsIs)});
  const auto current = record::current_decisions(job);
  REQUIRE(current.size() == 2);
  CHECK(current[0].entry->stamp.line == 2);
  CHECK(current[0].positions.empty());
  CHECK(current[1].entry->stamp.line == 3);
  CHECK(current[1].positions == std::vector{3});
}

TEST_CASE("a decision about some positions is overtaken at each of them alone", "[record]") {
  const auto job = job_with({alone("found-low:J06/03", 3), together({1, 3, 5}),
                             alone("found-low:J06/05", 5, Decision::UseAsIs)});
  const auto current = record::current_decisions(job);
  REQUIRE(current.size() == 2);
  CHECK(current[0].entry->stamp.line == 2);
  CHECK(current[0].positions == std::vector{1, 3});
  CHECK(current[1].entry->stamp.line == 3);
  // All of it overtaken, it is current no more.
  const auto anew = job_with({together({1, 3}), together({1, 3, 4})});
  REQUIRE(record::current_decisions(anew).size() == 1);
  CHECK(record::current_decisions(anew)[0].entry->stamp.line == 2);
}

}  // namespace current_decisions_test
