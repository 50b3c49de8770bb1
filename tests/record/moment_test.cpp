#include "record/moment.h"

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/zone.h"

namespace moment_test {

using failure::InputError;
using record::read_moment;
using record::write_utc;

TEST_CASE("a time is read as ISO 8601 writes it", "[record]") {
  // Offsets after ISO 8601-1:2019 4.3.13 (from memory): local time minus the offset is UTC.
  CHECK(write_utc(read_moment("2026-03-02T08:15Z")) == "2026-03-02T08:15:00.000Z");
  CHECK(write_utc(read_moment("2026-03-02T08:15:30.250Z")) == "2026-03-02T08:15:30.250Z");
  CHECK(write_utc(read_moment("2026-03-02 08:15+01:00")) == "2026-03-02T07:15:00.000Z");
  CHECK(write_utc(read_moment("2026-03-01T20:00-05:30")) == "2026-03-02T01:30:00.000Z");
  CHECK(write_utc(read_moment("2024-02-29T00:00Z")) == "2024-02-29T00:00:00.000Z");
  // A decimal fraction of a second of any length (ISO 8601), as PostgreSQL writes it.
  CHECK(write_utc(read_moment("2026-11-28T07:57:05.38+00:00")) == "2026-11-28T07:57:05.380Z");
  CHECK(write_utc(read_moment("2026-11-28T07:57:05.3Z")) == "2026-11-28T07:57:05.300Z");
  CHECK(write_utc(read_moment("2026-11-28T07:57:05.381999Z")) == "2026-11-28T07:57:05.381Z");
  CHECK_THROWS_AS(read_moment("2026-11-28T07:57:05.Z"), failure::InputError);
}

TEST_CASE("a time without a zone is local and shown local", "[record]") {
  // POSIX TZ strings carry their own rules, so no zone data base is needed: one hour east, two in
  // summer.
  const Zone zone("CET-1CEST,M3.5.0,M10.5.0/3");
  CHECK(write_utc(read_moment("2026-01-15T12:00")) == "2026-01-15T11:00:00.000Z");
  CHECK(write_utc(read_moment("2026-07-15T12:00")) == "2026-07-15T10:00:00.000Z");
  CHECK(write_utc(read_moment("2026-07-15")) == "2026-07-14T22:00:00.000Z");
  CHECK(record::write_local(read_moment("2026-07-15T10:00Z")) == "2026-07-15 12:00");
  CHECK(record::write_day(record::local_day(read_moment("2026-07-14T22:30Z"))) == "2026-07-15");
}

TEST_CASE("a time that the clocks never showed is refused, and so is one of two", "[record]") {
  // Clocks go from 02:00 to 03:00 on 29 March 2026 and from 03:00 back to 02:00 on 25 October.
  const Zone zone("CET-1CEST,M3.5.0,M10.5.0/3");
  CHECK(write_utc(read_moment("2026-03-29T01:59")) == "2026-03-29T00:59:00.000Z");
  CHECK(write_utc(read_moment("2026-03-29T03:00")) == "2026-03-29T01:00:00.000Z");
  for (const auto* text : {"2026-03-29T02:00", "2026-03-29T02:30", "2026-03-29T02:59:59"}) {
    CHECK_THROWS_WITH(read_moment(text), ContainsSubstring("never was here") &&
                                             ContainsSubstring("such as 2026-03-29 0"));
  }
  CHECK(write_utc(read_moment("2026-10-25T01:59")) == "2026-10-24T23:59:00.000Z");
  CHECK(write_utc(read_moment("2026-10-25T03:00")) == "2026-10-25T02:00:00.000Z");
  CHECK_THROWS_WITH(read_moment("2026-10-25T02:30"),
                    ContainsSubstring("came twice here") &&
                        ContainsSubstring("2026-10-25T02:30+02:00 or 2026-10-25T02:30+01:00"));
  CHECK(write_utc(read_moment("2026-10-25T02:30+02:00")) == "2026-10-25T00:30:00.000Z");
  CHECK(write_utc(read_moment("2026-10-25T02:30+01:00")) == "2026-10-25T01:30:00.000Z");
}

TEST_CASE("a day begins with its first moment, whatever the clocks do at midnight", "[record]") {
  // Forward at midnight on the last Sunday of March: that day begins at 01:00.
  const Zone zone("EET-2EEST,M3.5.0/0,M10.5.0/0");
  CHECK(write_utc(read_moment("2026-03-29")) == "2026-03-28T22:00:00.000Z");
  CHECK(write_utc(read_moment("2026-03-30")) == "2026-03-29T21:00:00.000Z");
}

TEST_CASE("every minute that the clocks showed once is read as that minute", "[record]") {
  for (const auto* name : {"CET-1CEST,M3.5.0,M10.5.0/3", "NST3:30NDT,M3.2.0,M11.1.0",
                           "<+0545>-5:45", "LHST-10:30LHDT-11,M10.1.0,M4.1.0"}) {
    const Zone zone(name);
    holds_always(std::string("read_moment(write_local(moment)) == moment, ") + name, [] {
      const record::Moment moment(
          std::chrono::minutes(*rc::gen::inRange<std::int64_t>(0, 68'371'200)));
      auto text = record::write_local(moment);
      try {
        RC_ASSERT(read_moment(text) == moment);
      } catch (const InputError& error) {
        RC_ASSERT(std::string(error.what()).find("came twice here") != std::string::npos);
      }
    });
  }
}

TEST_CASE("what is no time is refused", "[record]") {
  for (const auto* text :
       {"", "yesterday", "2026", "2026-13-01", "2026-02-30", "2026-3-2", "2026-03-02T25:00",
        "2026-03-02T08:60", "2026-03-02T8:15", "2026-03-02T08:15+25:00", "2026-03-02T08:15X",
        "02.03.2026", "2026-03-02T", "2026-03-02T08", "1", "0000-01-01T00:00+14:00",
        "9999-12-31T23:59-14:00", "1899-12-31", "3000-01-01T00:00Z"}) {
    INFO(text);
    CHECK_THROWS_AS(read_moment(text), InputError);
  }
}

TEST_CASE("a stored time reads back to the millisecond", "[record]") {
  holds_always("read(write_utc(moment)) == moment", [] {
    const record::Moment moment(
        std::chrono::milliseconds(*rc::gen::inRange<std::int64_t>(0, 4'102'444'800'000)));
    RC_ASSERT(read_moment(write_utc(moment)) == moment);
  });
}

TEST_CASE("months are counted on the calendar", "[record]") {
  const auto after = [](const char* day, int months) {
    return record::write_day(record::months_after(record::read_day(day), months));
  };
  CHECK(after("2026-03-02", 12) == "2027-03-02");
  CHECK(after("2024-02-29", 12) == "2025-02-28");
  CHECK(after("2026-08-31", 1) == "2026-09-30");
}

}  // namespace moment_test
