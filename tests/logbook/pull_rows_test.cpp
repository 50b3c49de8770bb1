// The pulls of a test under way read back as they were, and nobody can change them.

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "record/pull.h"
#include "support/catch.h"
#include "support/temporary_folder.h"

namespace pull_rows_test {

namespace {

class PulledLogbook {
 public:
  PulledLogbook() {
    const auto now = record::read_moment("2026-06-20T08:00:00Z");
    const logbook::Writer writer{"KB", "00000000-0000-4000-8000-000000000001", now, now};
    record::LogbookStart start;
    start.machine = "GB-1";
    logbook::start_logbook(path(), start, writer);
    auto open = logbook::Logbook::open_to_write(path());
    logbook::Recording recording(open, writer);
    const auto read = [](const std::string& typed) {
      return record::read_readings(typed, std::nullopt).front();
    };
    recording.append(record::Pull{"J06", 3, "TW2", quantity::TorqueUnit::FootPoundForce,
                                  record::Restart::BackedOff, read("40 short 6°"), "40 short 6°"});
    recording.append(record::Pull{"J06", 3, "TW2", quantity::TorqueUnit::FootPoundForce,
                                  record::Restart::BackedOff, read("45n"), "45n"});
    recording.commit();
  }

  [[nodiscard]] std::string path() const { return folder_.file("gb1.bolts"); }

 private:
  TemporaryFolder folder_;
};

}  // namespace

TEST_CASE("pulls read back as they were, and come to one test", "[logbook]") {
  const PulledLogbook written;
  const auto job = logbook::Logbook::open_to_read(written.path()).job_of("j06");
  REQUIRE(job.pulls.size() == 2);
  const auto test = record::test_of({job.pulls.data(), job.pulls.data() + 1});
  CHECK(test.joint == "J06");
  CHECK(test.position == 3);
  CHECK(test.wrench == "TW2");
  CHECK(test.unit == quantity::TorqueUnit::FootPoundForce);
  CHECK(test.restart == record::Restart::BackedOff);
  CHECK(test.readings == record::read_readings("40s 6° 45n", std::nullopt));
  CHECK(test.readings_typed == "40 short 6° 45n");
  CHECK(logbook::Logbook::open_to_read(written.path()).history().size() == 3);
}

TEST_CASE("no pull can be changed, removed or replaced", "[logbook]") {
  const PulledLogbook written;
  SQLite::Database shell(written.path(), SQLite::OPEN_READWRITE);
  CHECK_THROWS_WITH(shell.exec("UPDATE pull SET setting = 50"), ContainsSubstring("never changed"));
  CHECK_THROWS_WITH(shell.exec("DELETE FROM pull"), ContainsSubstring("never removed"));
  CHECK_THROWS_WITH(shell.exec("INSERT OR REPLACE INTO pull SELECT * FROM pull"),
                    ContainsSubstring("never after"));
}

}  // namespace pull_rows_test
