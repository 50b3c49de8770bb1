#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace record {

// A point in time, kept to the millisecond in UTC.
using Moment = std::chrono::sys_time<std::chrono::milliseconds>;

// A day of the calendar, as on a calibration certificate.
using Day = std::chrono::year_month_day;

// Reads ISO 8601: "2026-03-02", "2026-03-02T08:15", "2026-03-02 08:15:30", with "Z" or an offset
// such as "+01:00"; local time where none is given, midnight where only the day is. InputError
// otherwise, for a day that the calendar does not have, and for years before 1900 or after 2999.
[[nodiscard]] Moment read_moment(std::string_view text);

// "2026-03-02T08:15:00.000Z": how the store keeps it; read_moment gives the same moment back.
[[nodiscard]] std::string write_utc(Moment moment);

// "2026-03-02 09:15" in the local zone, for people.
[[nodiscard]] std::string write_local(Moment moment);

// The local calendar day on which the moment falls.
[[nodiscard]] Day local_day(Moment moment);

// Reads "2026-03-02". InputError otherwise.
[[nodiscard]] Day read_day(std::string_view text);
[[nodiscard]] std::string write_day(Day day);

// The same day of the month that many months on; the last of the month where it has none.
[[nodiscard]] Day months_after(Day day, int months);

}  // namespace record
