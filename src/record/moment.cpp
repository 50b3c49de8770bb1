#include "record/moment.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <optional>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using failure::InputError;
using quantity::quoted;

// Takes `digits` decimal digits off the front; nothing where they are not all there.
std::optional<int> take_digits(std::string_view& text, std::size_t digits) {
  if (text.size() < digits) return std::nullopt;
  int value = 0;
  for (std::size_t i = 0; i < digits; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  text.remove_prefix(digits);
  return value;
}

bool take(std::string_view& text, std::string_view part) {
  if (!text.starts_with(part)) return false;
  text.remove_prefix(part.size());
  return true;
}

std::optional<Day> take_day(std::string_view& text) {
  const auto year = take_digits(text, 4);
  if (!year || !take(text, "-")) return std::nullopt;
  const auto month = take_digits(text, 2);
  if (!month || !take(text, "-")) return std::nullopt;
  const auto day = take_digits(text, 2);
  if (!day) return std::nullopt;
  const Day result{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                   std::chrono::day(static_cast<unsigned>(*day))};
  if (!result.ok()) return std::nullopt;
  return result;
}

// Of a second, as many digits as there are: a server leaves noughts at its end out. What is less
// than a millisecond is cut off.
std::optional<std::chrono::milliseconds> take_fraction(std::string_view& text) {
  std::chrono::milliseconds fraction(0);
  std::chrono::milliseconds place(100);
  std::size_t digits = 0;
  while (const auto digit = take_digits(text, 1)) {
    fraction += *digit * place;
    place /= 10;
    ++digits;
  }
  return digits == 0 ? std::nullopt : std::optional(fraction);
}

std::optional<std::chrono::milliseconds> take_time(std::string_view& text) {
  const auto hours = take_digits(text, 2);
  if (!hours || *hours > 23 || !take(text, ":")) return std::nullopt;
  const auto minutes = take_digits(text, 2);
  if (!minutes || *minutes > 59) return std::nullopt;
  std::chrono::milliseconds time = std::chrono::hours(*hours) + std::chrono::minutes(*minutes);
  if (take(text, ":")) {
    const auto seconds = take_digits(text, 2);
    if (!seconds || *seconds > 59) return std::nullopt;
    time += std::chrono::seconds(*seconds);
    if (take(text, ".")) {
      const auto fraction = take_fraction(text);
      if (!fraction) return std::nullopt;
      time += *fraction;
    }
  }
  return time;
}

std::tm to_local(Moment moment) {
  const std::time_t seconds =
      std::chrono::floor<std::chrono::seconds>(moment).time_since_epoch().count();
  std::tm local{};
  localtime_r(&seconds, &local);
  return local;
}

// A minute of the local clock.
std::tm on_the_clock(Day day, std::chrono::minutes minute) {
  std::tm local{};
  local.tm_year = static_cast<int>(day.year()) - 1900;
  local.tm_mon = static_cast<int>(static_cast<unsigned>(day.month())) - 1;
  local.tm_mday = static_cast<int>(static_cast<unsigned>(day.day()));
  local.tm_min = static_cast<int>(minute.count());
  return local;
}

// That minute with summer time (1), without (0) or as the zone has it (-1). Where the clocks did
// not show it, a moment as long before or after them as they went forward.
Moment taken_as(std::tm local, int summer_time) {
  local.tm_isdst = summer_time;
  return Moment(std::chrono::seconds(std::mktime(&local)));
}

bool shows(Moment moment, Day day, std::chrono::minutes minute) {
  const auto local = to_local(moment);
  return local.tm_year + 1900 == static_cast<int>(day.year()) &&
         local.tm_mon + 1 == static_cast<int>(static_cast<unsigned>(day.month())) &&
         local.tm_mday == static_cast<int>(static_cast<unsigned>(day.day())) &&
         std::chrono::hours(local.tm_hour) + std::chrono::minutes(local.tm_min) == minute;
}

// "2026-10-25T02:30+01:00"
std::string with_its_zone(Moment moment) {
  const auto local = to_local(moment);
  const auto minutes = local.tm_gmtoff / 60;
  auto text = write_local(moment);
  std::ranges::replace(text, ' ', 'T');
  return fmt::format("{}{}{:02}:{:02}", text, minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                     std::abs(minutes) % 60);
}

// InputError for a time in the hour that the clocks left out, and for one in the hour that they
// showed twice: it would be an hour beside what was meant, or nobody could say which.
Moment from_local(Day day, std::chrono::milliseconds time) {
  const auto minute = std::chrono::floor<std::chrono::minutes>(time);
  const auto local = on_the_clock(day, minute);
  const auto winter = taken_as(local, 0);
  const auto summer = taken_as(local, 1);
  const auto usual = taken_as(local, -1);
  const auto rest = time - minute;
  if (winter != summer && shows(winter, day, minute) && shows(summer, day, minute)) {
    throw InputError(
        fmt::format("{} {:02}:{:02} came twice here, since the clocks went back; write {} or {}",
                    write_day(day), minute.count() / 60, minute.count() % 60, with_its_zone(summer),
                    with_its_zone(winter)));
  }
  for (const auto moment : {usual, winter, summer}) {
    if (shows(moment, day, minute)) return moment + rest;
  }
  throw InputError(fmt::format(
      "{} {:02}:{:02} never was here, since the clocks went forward over it; expected a time that "
      "they showed, such as {}",
      write_day(day), minute.count() / 60, minute.count() % 60, write_local(usual)));
}

// The first moment of a day, which in some zones does not begin at midnight on every day.
Moment begin_of(Day day) { return taken_as(on_the_clock(day, std::chrono::minutes(0)), -1); }

// "Z", "+01:00" or nothing for local time.
std::optional<Moment> with_zone(Day day, std::chrono::milliseconds time, std::string_view zone) {
  if (zone.empty()) return from_local(day, time);
  const Moment as_utc = std::chrono::sys_days(day) + time;
  if (zone == "Z" || zone == "z") return as_utc;
  const bool east = take(zone, "+");
  if (!east && !take(zone, "-")) return std::nullopt;
  const auto hours = take_digits(zone, 2);
  take(zone, ":");
  const auto minutes = zone.empty() ? 0 : take_digits(zone, 2);
  if (!hours || *hours > 14 || !minutes || *minutes > 59 || !zone.empty()) return std::nullopt;
  const auto offset = std::chrono::hours(*hours) + std::chrono::minutes(*minutes);
  return east ? as_utc - offset : as_utc + offset;
}

bool is_in_our_time(Day day) { return day.year() >= kFirstYear && day.year() <= kLastYear; }

// The same with a day to spare on either side, for what other zones call the first and the last.
bool is_near_our_time(Day day) {
  using std::chrono::days;
  const auto date = std::chrono::sys_days(day);
  return is_in_our_time(Day(date - days(1))) || is_in_our_time(Day(date + days(1)));
}

// "3.4.2026" may be the third of April or the fourth of March: InputError with the readings that it
// has, where it is a date of that form at all.
void ask_back(std::string_view text) {
  std::string_view rest = quantity::trimmed(text);
  const auto number = [&]() -> std::optional<int> {
    const auto digits = std::min(rest.find_first_not_of("0123456789"), rest.size());
    return digits == 0 || digits > 4 ? std::nullopt : take_digits(rest, digits);
  };
  const auto first = number();
  if (!first || rest.empty() ||
      std::string_view("./-").find(rest.front()) == std::string_view::npos) {
    return;
  }
  const auto mark = rest.substr(0, 1);
  take(rest, mark);
  const auto second = number();
  if (!second || !take(rest, mark)) return;
  const auto year = take_digits(rest, 4);
  if (!year) return;
  std::string readings;
  const auto add = [&](int day, int month, std::string_view which) {
    const Day reading{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(month)),
                      std::chrono::day(static_cast<unsigned>(day))};
    if (!reading.ok()) return;
    readings += fmt::format("{}{} ({})", readings.empty() ? "" : " or ", write_day(reading), which);
  };
  add(*first, *second, "day first");
  if (*first != *second) add(*second, *first, "month first");
  if (readings.empty()) return;
  throw InputError(fmt::format("{}: which day is that? Write {}", quoted(text), readings));
}

}  // namespace

Moment read_moment(std::string_view text) {
  std::string_view rest = quantity::trimmed(text);
  if (const auto day = take_day(rest); day && is_in_our_time(*day)) {
    if (rest.empty()) return begin_of(*day);
    if (take(rest, "T") || take(rest, " ")) {
      if (const auto time = take_time(rest)) {
        if (const auto moment = with_zone(*day, *time, rest)) return *moment;
      }
    }
  }
  ask_back(text);
  throw InputError(fmt::format(
      "{}: expected a day or a time such as 2026-03-02, 2026-03-02T08:15 or 2026-03-02T08:15Z, in "
      "the years {} to {}",
      quoted(text), static_cast<int>(kFirstYear), static_cast<int>(kLastYear)));
}

std::string write_utc(Moment moment) {
  const auto day = std::chrono::floor<std::chrono::days>(moment);
  const std::chrono::hh_mm_ss time(moment - day);
  return fmt::format("{}T{:02}:{:02}:{:02}.{:03}Z", write_day(Day(day)), time.hours().count(),
                     time.minutes().count(), time.seconds().count(), time.subseconds().count());
}

Moment read_utc(std::string_view text) {
  std::string_view rest = text;
  if (const auto day = take_day(rest); day && is_near_our_time(*day) && take(rest, "T")) {
    if (const auto time = take_time(rest); time && rest == "Z") {
      // With seconds and milliseconds, which may not be left out here.
      constexpr std::size_t kWhole = std::string_view("2026-03-02T08:15:00.000Z").size();
      if (text.size() == kWhole) return std::chrono::sys_days(*day) + *time;
    }
  }
  throw InputError(
      fmt::format("{}: expected a time such as 2026-03-02T08:15:00.000Z, in the years {} to {}",
                  quoted(text), static_cast<int>(kFirstYear), static_cast<int>(kLastYear)));
}

std::string write_local(Moment moment) {
  const std::tm local = to_local(moment);
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", local.tm_year + 1900, local.tm_mon + 1,
                     local.tm_mday, local.tm_hour, local.tm_min);
}

Day local_day(Moment moment) {
  const std::tm local = to_local(moment);
  return {std::chrono::year(local.tm_year + 1900),
          std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)),
          std::chrono::day(static_cast<unsigned>(local.tm_mday))};
}

Day read_day(std::string_view text) {
  std::string_view rest = quantity::trimmed(text);
  const auto day = take_day(rest);
  if (!day || !rest.empty() || !is_in_our_time(*day)) {
    ask_back(text);
    throw InputError(fmt::format("{}: expected a day such as 2026-03-02, in the years {} to {}",
                                 quoted(text), static_cast<int>(kFirstYear),
                                 static_cast<int>(kLastYear)));
  }
  return *day;
}

std::string write_day(Day day) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

Day months_after(Day day, int months) {
  const Day moved = day + std::chrono::months(months);
  return moved.ok() ? moved : Day(moved.year() / moved.month() / std::chrono::last);
}

}  // namespace record
