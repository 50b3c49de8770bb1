#include "progress/due_rechecks.h"

#include "progress/reassembly.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace due_rechecks_test {

namespace {

using progress::DueRecheck;

// Four positions, brought to 80 N·m and striped; entries are one minute apart from 08:00.
JobBuilder striped(const std::vector<std::string>& intervals, const std::string& counter = "") {
  auto builder = JobBuilder().wrench().joint("J06").specified("J06").out("J06/1-4");
  for (const auto& interval : intervals) {
    builder.last_joint().rechecks.push_back(record::read_recheck_interval(interval));
  }
  return builder.striped("J06/1-4", counter);
}

record::Moment day(int number) {
  return record::read_moment("2026-06-01T08:00:00Z") + std::chrono::days(number);
}

// Keeps what the list points into.
class List {
 public:
  List(const JobBuilder& builder, record::Moment now, const std::string& counter = "")
      : reassembly_(builder.job(), record::local_day(now)),
        rows(progress::due_rechecks(
            reassembly_.job, reassembly_.survey, reassembly_.progress, now,
            counter.empty() ? std::nullopt : std::optional(record::read_running_amount(counter)))) {
  }

 private:
  progress::Reassembly reassembly_;

 public:
  std::vector<DueRecheck> rows;
};

}  // namespace

TEST_CASE("a re-check is due so long after the stripe", "[progress]") {
  const auto builder = striped({"7 days"});
  const List early(builder, day(6));
  REQUIRE(early.rows.size() == 1);
  CHECK(early.rows[0].positions == std::vector{1, 2, 3, 4});
  CHECK_FALSE(early.rows[0].is_overdue);
  CHECK(early.rows[0].due_at == builder.job().stripes[0].stamp.done_at + std::chrono::days(7));
  CHECK(List(builder, *early.rows[0].due_at).rows[0].is_overdue);
  CHECK_FALSE(List(builder, *early.rows[0].due_at - std::chrono::seconds(1)).rows[0].is_overdue);
}

TEST_CASE("what is asked for once is met by a look no sooner", "[progress]") {
  auto builder = striped({"5 min"});
  builder.rechecked("J06/1-2");
  CHECK(List(builder, day(6)).rows.at(0).positions.size() == 4);
  for (int minute = 0; minute < 5; ++minute) builder.rechecked("J06/1-2");
  CHECK(List(builder, day(6)).rows.at(0).positions == std::vector{3, 4});
}

TEST_CASE("what is asked for once by the counter is met at that reading", "[progress]") {
  auto builder = striped({"50 running h"}, "1240 running h");
  builder.rechecked("J06/1", 0.0, "1289 running h").rechecked("J06/2", 0.0, "1290 running h");
  // Without a reading of its own: the machine has run no less than was noted before.
  builder.rechecked("J06/3");
  const List list(builder, day(6), "9000 running h");
  REQUIRE(list.rows.size() == 1);
  CHECK(list.rows[0].positions == std::vector{1, 4});
  // Where the stripe has none, the first look that has one stands in for it.
  auto without = striped({"50 running h"});
  without.rechecked("J06/1-4", 0.0, "100 running h");
  CHECK(record::write_exact(*List(without, day(6)).rows.at(0).due_reading) == "150 running h");
  without.rechecked("J06/1-4", 0.0, "150 running h");
  CHECK(List(without, day(6)).rows.empty());
}

TEST_CASE("a look that finds the stripe aligned starts an interval that repeats anew",
          "[progress]") {
  auto builder = striped({"every 7 days"});
  builder.rechecked("J06/1-2");
  const List list(builder, day(6));
  REQUIRE(list.rows.size() == 2);
  CHECK(list.rows[0].since_stripe);
  CHECK(list.rows[0].positions == std::vector{3, 4});
  CHECK_FALSE(list.rows[1].since_stripe);
  CHECK(*list.rows[1].due_at == *list.rows[0].due_at + std::chrono::minutes(1));
}

TEST_CASE("the machine's counter says when it is due", "[progress]") {
  const auto builder = striped({"50 running h"}, "1240 running h");
  const auto due = [&](const std::string& counter) {
    return List(builder, day(1), counter).rows.at(0);
  };
  CHECK(record::write_exact(*due("1289 running h").due_reading) == "1290 running h");
  CHECK_FALSE(due("1289.9 running h").is_overdue);
  CHECK(due("1290 running h").is_overdue);
  CHECK(due("").reading == record::read_running_amount("1240 running h"));
  CHECK_FALSE(due("").is_overdue);
  // Kilometres say nothing about hours.
  CHECK_FALSE(due("9000 km").reading);
}

TEST_CASE("a distance may be asked in miles and read in kilometres", "[progress]") {
  // Source: 50 mi = 80.4672 km exactly.
  const auto builder = striped({"50 mi"}, "1000 km");
  CHECK_FALSE(List(builder, day(1), "1080.4 km").rows.at(0).is_overdue);
  CHECK(List(builder, day(1), "1080.5 km").rows.at(0).is_overdue);
}

TEST_CASE("without a reading the highest on record stands in", "[progress]") {
  auto builder = striped({"50 running h"}, "1240 running h");
  builder.joint("J07").specified("J07").out("J07/1").striped("J07/1", "1300 running h");
  CHECK(List(builder, day(1)).rows.at(0).is_overdue);
}

TEST_CASE("where the stripe has no reading nobody can tell", "[progress]") {
  const List list(striped({"500 km"}), day(1), "900 km");
  REQUIRE(list.rows.size() == 1);
  CHECK_FALSE(list.rows[0].due_reading);
  CHECK_FALSE(list.rows[0].is_overdue);
}

TEST_CASE("a turned stripe is overdue until there is a new one", "[progress]") {
  auto builder = striped({});
  CHECK(List(builder, day(1)).rows.empty());
  builder.rechecked("J06/2", 15.0);
  const List list(builder, day(1));
  REQUIRE(list.rows.size() == 1);
  CHECK(list.rows[0].turned == quantity::Angle::degrees(15.0));
  CHECK(list.rows[0].is_overdue);
  // A new stripe alone does not mend it: it is slackened and goes through its passes first.
  builder.striped("J06/2");
  CHECK(List(builder, day(1)).rows.size() == 1);
  builder.slackened("J06/2").tightened("J06/2", 2, 56, 56).tightened("J06/2", 3, 80, 80);
  builder.tightened("J06/2", 4, 80, 80);
  builder.last_tightening().target.kind = record::PassKind::Check;
  CHECK(List(builder, day(1)).rows.size() == 1);
  builder.striped("J06/2");
  CHECK(List(builder, day(1)).rows.empty());
}

TEST_CASE("turned ones come first, then overdue ones, then by day and counter", "[progress]") {
  auto builder = striped({"50 running h", "30 days", "2 days", "500 km"}, "1240 running h");
  builder.joint("J07").specified("J07").out("J07/1").striped("J07/1").rechecked("J07/1", 5.0);
  const List list(builder, day(10));
  REQUIRE(list.rows.size() == 5);
  CHECK(list.rows[0].turned);
  CHECK(list.rows[1].after == record::read_recheck_interval("2 days"));
  CHECK(list.rows[2].after == record::read_recheck_interval("30 days"));
  CHECK(list.rows[3].after == record::read_recheck_interval("50 running h"));
  CHECK(list.rows[4].after == record::read_recheck_interval("500 km"));
}

TEST_CASE("what came out again has no stripe to look at", "[progress]") {
  auto builder = striped({"7 days"});
  builder.out("J06/1-4");
  CHECK(List(builder, day(30)).rows.empty());
}

TEST_CASE("the dwell of a pass rule is met once, by a look after it", "[progress]") {
  // Source: pass_rule.h, legacy-flange-rounds: after at least 4 h once more round.
  auto builder = JobBuilder().wrench().joint("J06").specified("J06").out("J06/1-4");
  builder.last_joint().passes = "legacy-flange-rounds";
  builder.striped("J06/1-4").rechecked("J06/1");
  const auto stripe = builder.job().stripes[0].stamp.done_at;
  const auto due = [&](record::Moment now) { return List(builder, now).rows; };
  REQUIRE(due(stripe).size() == 1);
  CHECK(due(stripe)[0].positions.size() == 4);
  CHECK(due(stripe)[0].rule->name == "legacy-flange-rounds");
  CHECK(due(stripe)[0].due_at == stripe + std::chrono::hours(4));
  CHECK(due(stripe + std::chrono::hours(4))[0].is_overdue);
  for (int minute = 0; minute < 240; ++minute) builder.rechecked("J06/2");
  CHECK(due(stripe + std::chrono::hours(5))[0].positions == std::vector{1, 3, 4});
  builder.last_joint().passes = "five-rounds";
  CHECK(due(stripe).empty());
}

}  // namespace due_rechecks_test
