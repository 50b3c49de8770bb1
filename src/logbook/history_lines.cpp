#include "logbook/history_lines.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "logbook/logbook_error.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/strike_rows.h"
#include "logbook/soundness.h"

namespace logbook {

void mark_struck(SQLite::Database& database, std::vector<record::UnreadableLine>& unreadable) {
  if (unreadable.empty()) return;
  SQLite::Statement strike(database, "SELECT 1 FROM strike WHERE struck_id = ?");
  for (auto& line : unreadable) {
    if (!record::can_be_struck(line)) continue;
    strike.reset();
    strike.bind(1, line.id);
    line.struck = strike.executeStep();
  }
}

std::size_t take_out_struck(SQLite::Database& database,
                            std::vector<record::UnreadableLine>& unreadable) {
  mark_struck(database, unreadable);
  return std::erase_if(unreadable, [](const auto& line) { return line.struck; });
}

void add_strike(record::HistoryLine& line, record::Entry<record::Strike> strike) {
  if (line.struck_by) {
    line.struck_again.push_back({std::move(strike.stamp), std::move(strike.content.reason)});
    return;
  }
  line.struck_by = std::move(strike.stamp);
  line.struck_why = std::move(strike.content.reason);
}

void mark_altered(Soundness& soundness, std::vector<record::HistoryLine>& lines) {
  for (auto& line : lines) {
    if (line.struck_by) line.is_altered = !soundness.is_as_written(line.stamp);
  }
}

record::HistoryLine* line_with(std::vector<record::HistoryLine>& lines, std::string_view id) {
  const auto found = std::ranges::lower_bound(
      lines, id, {}, [](const auto& line) { return std::string_view(line.stamp.id); });
  return found == lines.end() || found->stamp.id != id ? nullptr : &*found;
}

void add_strikes_of(SQLite::Database& database, const RowFilter& part,
                    std::vector<record::HistoryLine>& lines) {
  SQLite::Statement row(database, R"(
      SELECT DISTINCT struck_id FROM strike WHERE struck_id >= :from AND struck_id < :until
      ORDER BY struck_id)");
  row.bind(":from", std::string(part.from_id.value_or("")));
  row.bind(":until", std::string(part.until_id.value_or("~")));  // behind every id
  StrikesOfLine strikes(database);
  while (row.executeStep()) {
    const auto id = row.getColumn(0).getString();
    auto* line = line_with(lines, id);
    if (line == nullptr) continue;
    for (auto& strike : strikes.of(id, part.unreadable)) {
      add_strike(*line, std::move(strike));
    }
  }
}

void refuse_if_any(const std::string& path, std::vector<record::UnreadableLine> unreadable,
                   Soundness& soundness) {
  if (unreadable.empty()) return;
  record::each_once(unreadable);
  const auto& first = unreadable.front();
  const auto others = unreadable.size() - 1;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format(
          "{}: line {} ({}) cannot be read: {}{}; \"boltwitness history\" shows what can; {}", path,
          first.line, first.kind, first.why,
          others == 0 ? "" : fmt::format(", and {} more", others),
          record::how_to_go_on(first, soundness.what_strikes_do(unreadable))));
}

}  // namespace logbook
