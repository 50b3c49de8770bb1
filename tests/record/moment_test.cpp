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
