#include "paper/joint_log.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace joint_log_test {

namespace {

std::vector<record::HistoryLine> lines_of(const record::Job& job) {
  std::vector<record::HistoryLine> lines;
  for (const auto& entry : job.tightenings) lines.push_back({entry.stamp, entry.content, {}, {}});
  return lines;
}

}  // namespace

TEST_CASE("lines that say the same of other positions stand in one row", "[paper]") {
  JobBuilder builder;
  builder.joint("J06").joint("J07");
  for (const auto* where : {"J06/3", "J06/1", "J06/2", "J07/1"}) {
    builder.tightened(where, 1, 56, 56);
  }
  const auto lines = lines_of(builder.job());
  const auto rows = paper::JointLog(lines).rows_of("j06");
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].line == "3 to 5");
  CHECK_THAT(rows[0].says, ContainsSubstring("J06/1-3 pass 1, torque to 56 N·m"));
  CHECK_THAT(rows[0].done, ContainsSubstring(" to "));
  CHECK(paper::JointLog(lines).rows_of("J08").empty());
}

TEST_CASE("another person, pass or setting, or the same position again has its own row",
          "[paper]") {
  JobBuilder builder;
  builder.joint("J06");
  builder.tightened("J06/1", 1, 56, 56).tightened("J06/2", 1, 56, 56, "LM");
  builder.tightened("J06/3", 1, 56, 57, "LM").tightened("J06/3", 2, 80, 80, "LM");
  builder.tightened("J06/3", 2, 80, 80, "LM");
  const auto lines = lines_of(builder.job());
  CHECK(paper::JointLog(lines).rows_of("J06").size() == 5);
}

TEST_CASE("a struck line stands alone and is known as struck", "[paper]") {
  JobBuilder builder;
  builder.joint("J06");
  builder.tightened("J06/1", 1, 56, 56).tightened("J06/2", 1, 56, 56).tightened("J06/3", 1, 56, 56);
  auto lines = lines_of(builder.job());
  lines[1].struck_by = lines[2].stamp;
  const auto rows = paper::JointLog(lines).rows_of("J06");
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].struck == nullptr);
  CHECK(rows[1].struck == &lines[1]);
}

}  // namespace joint_log_test
