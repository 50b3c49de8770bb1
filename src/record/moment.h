#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace record {

// A point in time, kept to the millisecond in UTC.
using Moment = std::chrono::sys_time<std::chrono::milliseconds>;

// A day of the calendar, as on a calibration certificate.
using Day = std::chrono::year_month_day;

// The years that a logbook of machines can mean, as they stand on a calendar in the zone of whoever
// types; any other is a slipped key. Kept in UTC, a moment may lie a day beside them: its text
// still has four digits for the year and is read back in every zone.
inline constexpr std::chrono::year kFirstYear{1900};
inline constexpr std::chrono::year kLastYear{2999};

// Reads ISO 8601: "2026-03-02", "2026-03-02T08:15", "2026-03-02 08:15:30", with "Z" or an offset
// such as "+01:00"; local time where none is given, midnight where only the day is. InputError
// otherwise, for a day that the calendar does not have, and for years but those above.
[[nodiscard]] Moment read_moment(std::string_view text);

// "2026-03-02T08:15:00.000Z": how the store keeps it, whatever the zone.
[[nodiscard]] std::string write_utc(Moment moment);

// Reads what write_utc wrote and nothing else; InputError otherwise, and for a moment more than a
// day beside the years above.
[[nodiscard]] Moment read_utc(std::string_view text);

// "2026-03-02 09:15" in the local zone, for people.
[[nodiscard]] std::string write_local(Moment moment);

// The local calendar day on which the moment falls.
[[nodiscard]] Day local_day(Moment moment);

// Reads "2026-03-02". InputError otherwise, and for years but those above.
[[nodiscard]] Day read_day(std::string_view text);
[[nodiscard]] std::string write_day(Day day);

// The same day of the month that many months on; the last of the month where it has none.
[[nodiscard]] Day months_after(Day day, int months);

}  // namespace record
