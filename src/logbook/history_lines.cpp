#include "logbook/history_lines.h"

#include <fmt/format.h>

#include <utility>

#include "logbook/logbook_error.h"

namespace logbook {

void add_strike(record::HistoryLine& line, record::Entry<record::Strike> strike) {
  if (line.struck_by) {
    line.struck_again.push_back({std::move(strike.stamp), std::move(strike.content.reason)});
    return;
  }
  line.struck_by = std::move(strike.stamp);
  line.struck_why = std::move(strike.content.reason);
}

void refuse_if_any(const std::string& path, const std::vector<record::UnreadableLine>& unreadable) {
  if (unreadable.empty()) return;
  const auto& first = unreadable.front();
  const auto others = unreadable.size() - 1;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format(
          "{}: line {} ({}) cannot be read: {}{}; \"boltwitness history\" shows what can; {}", path,
          first.line, first.kind, first.why,
          others == 0 ? "" : fmt::format(", and {} more", others),
          first.kind == "start"
              ? std::string("the first line cannot be struck, so go back to a copy")
              : fmt::format("\"boltwitness strike {} --why TEXT\" takes it out of what "
                            "counts, then enter it again",
                            first.line)));
}

}  // namespace logbook
