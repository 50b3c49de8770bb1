#include "terminal/time_zone.h"

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <regex>
#include <string_view>

#include "logbook/plain_file.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

bool is_rules(const std::string& name) {
  // Name and offset, those of summer time, and when it is that (POSIX.1-2017, 8.3, TZ).
  static const std::regex kRules = [] {
    const std::string minutes = "(:[0-5][0-9]){0,2}";
    const std::string zone = "(<[A-Za-z0-9+-]{3,}>|[A-Za-z]{3,})";
    // No place has its clocks a whole day apart from UTC.
    const std::string offset = "[+-]?([01]?[0-9]|2[0-3])" + minutes;
    const std::string month_week_day = "M(0?[1-9]|1[0-2])\\.[1-5]\\.[0-6]";
    const std::string julian_day = "J(36[0-5]|3[0-5][0-9]|[12][0-9][0-9]|0?[1-9][0-9]|0{0,2}[1-9])";
    const std::string day = "(36[0-5]|3[0-5][0-9]|[12]?[0-9]?[0-9])";
    // Hours up to a week, as RFC 8536 and the C library have them.
    const std::string hour = "(/[+-]?(16[0-7]|1[0-5][0-9]|[0-9]?[0-9])" + minutes + ")?";
    const std::string when = ",(" + month_week_day + "|" + julian_day + "|" + day + ")" + hour;
    return std::regex(zone + offset + "(" + zone + "(" + offset + ")?(" + when + when + ")?)?");
  }();
  return std::regex_match(name, kRules);
}

}  // namespace

bool is_known_zone(std::string name, const std::optional<std::string>& zone_folder) {
  if (name.starts_with(':')) name.erase(0, 1);
  if (name.empty() || name == "UTC" || name == "GMT" || is_rules(name)) return true;
  constexpr std::string_view kMark = "TZif";
  const auto file = fs::path(zone_folder.value_or("/usr/share/zoneinfo")) / name;
  return logbook::begin_of_plain_file(file, kMark.size()) == kMark;
}

void take_utc() {
  ::setenv("TZ", "UTC0", 1);
  ::tzset();
}

}  // namespace terminal
