#include "logbook/rows/hold_point_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::HoldPoint& point) {
  SQLite::Statement row(database, R"(
      INSERT INTO hold_point (entry_id, code, what, wait_seconds)
      VALUES (:id, :code, :what, :wait))");
  row.bind(":id", id);
  row.bind(":code", point.code);
  row.bind(":what", point.what);
  if (point.wait) row.bind(":wait", static_cast<std::int64_t>(point.wait->seconds.count()));
  row.exec();
  insert_texts(database, "hold_point_joint", "joint_code", id, point.joints);
}

void insert(SQLite::Database& database, const std::string& id, const record::HoldPointStep& step) {
  SQLite::Statement row(database, R"(
      INSERT INTO hold_point_step (entry_id, code, move, note)
      VALUES (:id, :code, :move, :note))");
  row.bind(":id", id);
  row.bind(":code", step.code);
  row.bind(":move", std::string(record::word_of(step.move)));
  row.bind(":note", step.note);
  row.exec();
}

std::vector<record::Entry<record::HoldPoint>> read_hold_points(SQLite::Database& database,
                                                               const RowFilter& filter) {
  auto joints = read_texts(database, "hold_point_joint", "joint_code");
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, h.code, h.what, h.wait_seconds
      FROM hold_point h JOIN {} e ON e.id = h.entry_id {} ORDER BY h.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("h.code")));
  filter.bind(row);
  std::vector<record::Entry<record::HoldPoint>> points;
  while (row.executeStep()) {
    record::HoldPoint point{text_at(row, 0), text_at(row, 1), std::nullopt, {}};
    if (!is_null_at(row, 2)) {
      point.wait = record::SpanOfTime{std::chrono::seconds(integer_at(row, 2))};
    }
    auto stamp = stamp_of(row);
    point.joints = std::move(joints[stamp.id]);
    points.push_back({std::move(stamp), std::move(point)});
  }
  return points;
}

std::vector<record::Entry<record::HoldPointStep>> read_hold_point_steps(SQLite::Database& database,
                                                                        const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, s.code, s.move, s.note
      FROM hold_point_step s JOIN {} e ON e.id = s.entry_id {} ORDER BY s.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("s.code")));
  filter.bind(row);
  std::vector<record::Entry<record::HoldPointStep>> steps;
  while (row.executeStep()) {
    steps.push_back({stamp_of(row),
                     {text_at(row, 0), record::read_word<record::HoldPointMove>(text_at(row, 1)),
                      text_at(row, 2)}});
  }
  return steps;
}

}  // namespace logbook
