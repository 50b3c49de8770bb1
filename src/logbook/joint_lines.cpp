#include "logbook/joint_lines.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/every_kind.h"
#include "logbook/guarded.h"
#include "logbook/history_lines.h"
#include "logbook/logbook_file.h"
#include "logbook/soundness.h"

namespace logbook {
namespace {

bool is_struck(SQLite::Database& database, const std::string& id) {
  SQLite::Statement row(database, "SELECT 1 FROM strike WHERE struck_id = ?");
  row.bind(1, id);
  return row.executeStep();
}

// The strikes of this line, which are as few as there were copies apart.
std::vector<record::Entry<record::Strike>> strikes_of(
    SQLite::Database& database, const std::string& id,
    std::vector<record::UnreadableLine>& unreadable) {
  return read_rows(database, {.unreadable = unreadable, .name = id, .struck_too = true},
                   Rows<record::Strike>{});
}

}  // namespace

std::vector<record::HistoryLine> lines_of_joint(const std::string& path, std::string_view joint,
                                                Waiting& waiting) {
  return guarded(path, [&] {
    const auto database = open_to_read(path, waiting);
    const SQLite::Transaction moment(*database);
    Soundness soundness(*database, path);
    std::vector<record::UnreadableLine> unreadable;
    auto lines =
        read_every_line(*database, {.unreadable = unreadable, .name = joint, .struck_too = true});
    std::erase_if(unreadable, [&](const auto& line) { return is_struck(*database, line.id); });
    SQLite::Statement struck(*database, "SELECT 1 FROM strike WHERE struck_id = ?");
    for (auto& line : lines) {
      struck.reset();
      struck.bind(1, line.stamp.id);
      if (!struck.executeStep()) {
        soundness.check(line.stamp);
        continue;
      }
      for (auto& strike : strikes_of(*database, line.stamp.id, unreadable)) {
        soundness.check(strike.stamp);
        add_strike(line, std::move(strike));
      }
    }
    refuse_if_any(path, unreadable);
    return lines;
  });
}

std::string wrench_used_last(const std::string& path, Waiting& waiting) {
  return guarded(path, [&] {
    const auto database = open_to_read(path, waiting);
    const SQLite::Transaction moment(*database);
    SQLite::Statement last(*database, R"(
        SELECT e.id, e.line, coalesce(f.wrench_name, p.wrench_name)
        FROM (SELECT id, line FROM entry WHERE kind IN (:finding, :pull)
                                     AND id NOT IN (SELECT struck_id FROM strike)
              ORDER BY done_at DESC, id DESC LIMIT 1) e
        LEFT JOIN finding f ON f.entry_id = e.id LEFT JOIN pull p ON p.entry_id = e.id)");
    last.bind(":finding", std::string(record::Kinds::word_of<record::Measured>()));
    last.bind(":pull", std::string(record::Kinds::word_of<record::Pull>()));
    if (!last.executeStep()) return std::string();
    record::Stamp stamp;
    stamp.id = last.getColumn(0).getString();
    stamp.line = last.getColumn(1).getInt64();
    Soundness(*database, path).check(stamp);
    return last.getColumn(2).getString();
  });
}

}  // namespace logbook
