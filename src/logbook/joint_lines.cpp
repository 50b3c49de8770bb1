#include "logbook/joint_lines.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/every_kind.h"
#include "logbook/history_lines.h"
#include "logbook/rows/strike_rows.h"
#include "logbook/soundness.h"

namespace logbook {

std::vector<record::HistoryLine> lines_of_joint(SQLite::Database& database, Soundness& soundness,
                                                const std::string& path, std::string_view joint) {
  soundness.check_lookups(joint);
  std::vector<record::UnreadableLine> unreadable;
  auto lines =
      read_every_line(database, {.unreadable = unreadable, .name = joint, .struck_too = true});
  take_out_struck(database, unreadable);
  StrikesOfLine strikes(database);
  for (auto& line : lines) {
    auto of_line = strikes.of(line.stamp.id, unreadable);
    if (of_line.empty()) soundness.check(line.stamp);
    for (auto& each : of_line) {
      soundness.check(each.stamp);
      add_strike(line, std::move(each));
    }
  }
  refuse_if_any(path, unreadable, soundness);
  mark_altered(soundness, lines);
  return lines;
}

std::string wrench_used_last(SQLite::Database& database, Soundness& soundness) {
  SQLite::Statement last(database, R"(
      SELECT e.id, e.line, coalesce(f.wrench_name, p.wrench_name)
      FROM (SELECT id, line FROM entry WHERE kind IN (:finding, :pull)
                                   AND id NOT IN (SELECT struck_id FROM strike)
            ORDER BY done_at DESC, id DESC LIMIT 1) e
      LEFT JOIN finding f ON f.entry_id = e.id LEFT JOIN pull p ON p.entry_id = e.id)");
  last.bind(":finding", std::string(record::Kinds::word_of<record::Measured>()));
  last.bind(":pull", std::string(record::Kinds::word_of<record::Pull>()));
  if (!last.executeStep()) return {};
  record::Stamp stamp;
  stamp.id = last.getColumn(0).getString();
  stamp.line = last.getColumn(1).getInt64();
  soundness.check(stamp);
  return last.getColumn(2).getString();
}

}  // namespace logbook
