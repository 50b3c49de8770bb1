#include "terminal/time_zone.h"

#include <filesystem>
#include <regex>
#include <string_view>

#include "logbook/plain_file.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

bool is_rules(const std::string& name) {
  // Name and offset, those of summer time, and when it is that (POSIX.1-2017, 8.3, TZ).
  static const std::regex kRules(
      "(<[A-Za-z0-9+-]{3,}>|[A-Za-z]{3,})[+-]?[0-9]{1,2}(:[0-9]{2}){0,2}"
      "((<[A-Za-z0-9+-]{3,}>|[A-Za-z]{3,})([+-]?[0-9]{1,2}(:[0-9]{2}){0,2})?"
      "(,[JM0-9./:+-]+,[JM0-9./:+-]+)?)?");
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

}  // namespace terminal
