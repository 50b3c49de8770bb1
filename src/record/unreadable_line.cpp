#include "record/unreadable_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "record/content.h"

namespace record {
namespace {

bool is_start(const UnreadableLine& line) { return line.kind == Kinds::word_of<LogbookStart>(); }
bool is_strike(const UnreadableLine& line) { return line.kind == Kinds::word_of<Strike>(); }

}  // namespace

void each_once(std::vector<UnreadableLine>& lines) {
  std::ranges::stable_sort(
      lines, {}, [](const auto& line) { return std::pair(line.line, !line.out_of_place); });
  const auto again = std::unique(lines.begin(), lines.end(),
                                 [](const auto& a, const auto& b) { return a.line == b.line; });
  lines.erase(again, lines.end());
}

bool can_be_struck(const UnreadableLine& line) {
  return !is_start(line) && !is_strike(line) && !line.out_of_place;
}

std::string how_to_go_on(const UnreadableLine& line, Strikes strikes) {
  if (line.out_of_place) return "it cannot be struck, so go back to a copy";
  if (is_start(line)) return "the first line cannot be struck, so go back to a copy";
  if (is_strike(line)) return "a strike cannot be struck, so go back to a copy";
  if (strikes == Strikes::AreNotEnough) {
    return "more is wrong than a strike mends, which \"boltwitness verify\" tells, so go back to a "
           "copy";
  }
  return fmt::format(
      "\"boltwitness strike {} --why TEXT\" takes it out of what counts, then enter it again; or "
      "go back to a copy",
      line.line);
}

}  // namespace record
