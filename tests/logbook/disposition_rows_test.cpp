// Decisions read back as they were made, and nobody can change them.

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/temporary_folder.h"

namespace disposition_rows_test {

using logbook::Logbook;

namespace {

logbook::Writer writer() {
  const auto now = record::read_moment("2026-06-20T08:00:00Z");
  return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
}

record::Disposition of_a_position() {
  return {"found-low:J06/03",
          "found low",
          "J06",
          3,
          "0123456789abcdef",
          "found 52 ±3.6 N·m, specified 76.5 to 93.5 N·m",
          record::Decision::ReTorque,
          "gasket has settled",
          "LM"};
}

record::Disposition of_a_joint() {
  auto disposition = of_a_position();
  disposition.position = std::nullopt;
  disposition.decision = record::Decision::CorrectRecord;
  disposition.second_person.clear();
  return disposition;
}

// Of positions together, and the line that says that it was done.
record::Disposition of_positions() {
  auto disposition = of_a_joint();
  disposition.deviation = "damaged-thread:J06";
  disposition.decision = record::Decision::Repair;
  disposition.parts = {{"damaged-thread:J06/02", 2, "0123456789abcde2"},
                       {"damaged-thread:J06/10", 10, "0123456789abcd10"}};
  disposition.done = "thread insert fitted";
  return disposition;
}

std::string started_in(const TemporaryFolder& folder) {
  const auto path = folder.file("gb1.bolts");
  record::LogbookStart start;
  start.machine = "GB-1";
  logbook::start_logbook(path, start, writer());
  auto open = Logbook::open_to_write(path);
  logbook::Recording recording(open, writer());
  recording.append(of_a_position());
  recording.append(of_a_joint());
  recording.append(of_positions());
  recording.commit();
  return path;
}

}  // namespace

TEST_CASE("a decision reads back as it was made", "[logbook]") {
  const TemporaryFolder folder;
  const auto logbook = Logbook::open_to_read(started_in(folder));
  const auto job = logbook.job();
  REQUIRE(job.dispositions.size() == 3);
  const auto& first = job.dispositions[0].content;
  CHECK(first.deviation == of_a_position().deviation);
  CHECK(first.rule == "found low");
  CHECK(first.joint == "J06");
  CHECK(first.position == 3);
  CHECK(first.evidence == of_a_position().evidence);
  CHECK(first.judged_on == of_a_position().judged_on);
  CHECK(first.decision == record::Decision::ReTorque);
  CHECK(first.reason == "gasket has settled");
  CHECK(first.second_person == "LM");
  const auto& second = job.dispositions[1].content;
  CHECK_FALSE(second.position);
  CHECK(second.decision == record::Decision::CorrectRecord);
  CHECK(second.second_person.empty());
  CHECK(second.parts.empty());
  CHECK(second.done.empty());
  const auto& third = job.dispositions[2].content;
  CHECK(third.done == "thread insert fitted");
  REQUIRE(third.parts.size() == 2);
  CHECK(third.parts[1].deviation == "damaged-thread:J06/10");
  CHECK(third.parts[1].position == 10);
  CHECK(third.parts[1].evidence == "0123456789abcd10");
  CHECK(record::positions_of(third) == std::vector{2, 10});
  CHECK(logbook.history().size() == 4);
  CHECK(logbook.job_of("j06").dispositions.size() == 3);
  CHECK(logbook.job_of("J07").dispositions.empty());
}

TEST_CASE("a decision is never changed, removed or slipped in, in any SQLite shell", "[logbook]") {
  const TemporaryFolder folder;
  SQLite::Database database(started_in(folder), SQLite::OPEN_READWRITE);
  CHECK_THROWS_WITH(database.exec("UPDATE disposition SET decision = 'use-as-is'"),
                    ContainsSubstring("never changed"));
  CHECK_THROWS_WITH(database.exec("DELETE FROM disposition"), ContainsSubstring("never removed"));
  CHECK_THROWS_WITH(
      database.exec("INSERT OR REPLACE INTO disposition SELECT entry_id, deviation, rule, "
                    "joint_code, position, evidence, judged_on, 'renew', reason, second_person "
                    "FROM disposition LIMIT 1"),
      ContainsSubstring("written with it and never after"));
  for (const std::string table : {"disposition_part", "disposition_done"}) {
    CHECK_THROWS_WITH(database.exec("UPDATE " + table + " SET entry_id = entry_id"),
                      ContainsSubstring("never changed"));
    CHECK_THROWS_WITH(database.exec("DELETE FROM " + table), ContainsSubstring("never removed"));
  }
  CHECK(database.execAndGet("SELECT count(*) FROM settled").getInt() == 3);
}

}  // namespace disposition_rows_test
