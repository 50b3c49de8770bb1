#include "logbook/rows/joint_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"

namespace logbook {
void insert(SQLite::Database& database, const std::string& id, const record::Joint& joint) {
  SQLite::Statement row(database, R"(
      INSERT INTO joint (entry_id, code, holds, size, length_mm, grade, count, layout, one_time,
                         critical, bench, final_when, order_text, passes,
 length_typed, live_load)
      VALUES (:id, :code, :holds, :size, :length_mm, :grade, :count, :layout, :one_time,
              :critical, :bench, :final_when, :order, :passes, :length_typed, :live_load))");
  row.bind(":id", id);
  row.bind(":code", joint.code);
  row.bind(":holds", joint.holds);
  row.bind(":size", joint.size);
  if (joint.length) row.bind(":length_mm", joint.length->in_millimetres());
  row.bind(":length_typed", joint.length_typed);
  row.bind(":grade", joint.grade);
  row.bind(":count", joint.count);
  row.bind(":layout", record::write_exact(joint.layout));
  row.bind(":one_time", joint.one_time ? 1 : 0);
  row.bind(":critical", joint.critical ? 1 : 0);
  row.bind(":live_load", joint.live_load ? 1 : 0);
  row.bind(":bench", joint.bench ? 1 : 0);
  row.bind(":final_when", joint.final_when);
  row.bind(":order", joint.order);
  row.bind(":passes", joint.passes);
  row.exec();

  insert_texts(database, "joint_after", "after_code", id, joint.after);
  insert_texts(database, "joint_covers", "covered_code", id, joint.covers);
  std::vector<std::string> due;
  for (const auto& interval : joint.rechecks) due.push_back(record::write_exact(interval));
  insert_texts(database, "joint_recheck", "due", id, due);
}

std::vector<record::Entry<record::Joint>> read_joints(SQLite::Database& database,
                                                      const RowFilter& filter) {
  auto after = read_texts(database, "joint_after", "after_code");
  auto covers = read_texts(database, "joint_covers", "covered_code");
  const auto due = read_texts(database, "joint_recheck", "due");
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, j.code, j.holds, j.size, j.length_mm, j.grade, j.count, j.layout, j.one_time,
             j.critical, j.bench, j.final_when, j.order_text, j.passes,
             j.length_typed, j.live_load
      FROM joint j JOIN {} e ON e.id = j.entry_id
      {} ORDER BY j.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("j.code")));
  filter.bind(row);
  std::vector<record::Entry<record::Joint>> joints;
  while (row.executeStep()) {
    record::Joint joint;
    joint.code = text_at(row, 0);
    joint.holds = text_at(row, 1);
    joint.size = text_at(row, 2);
    if (!is_null_at(row, 3)) joint.length = quantity::Length::millimetres(number_at(row, 3));
    joint.grade = text_at(row, 4);
    joint.count = integer_at(row, 5);
    joint.layout = record::read_layout(text_at(row, 6));
    joint.one_time = integer_at(row, 7) != 0;
    joint.critical = integer_at(row, 8) != 0;
    joint.bench = integer_at(row, 9) != 0;
    joint.final_when = text_at(row, 10);
    joint.order = text_at(row, 11);
    joint.passes = text_at(row, 12);
    joint.length_typed = text_at(row, 13);
    joint.live_load = integer_at(row, 14) != 0;
    auto stamp = stamp_of(row);
    joint.after = std::move(after[stamp.id]);
    joint.covers = std::move(covers[stamp.id]);
    if (const auto found = due.find(stamp.id); found != due.end()) {
      for (const auto& text : found->second) {
        joint.rechecks.push_back(record::read_recheck_interval(text));
      }
    }
    joints.push_back({std::move(stamp), std::move(joint)});
  }
  return joints;
}

}  // namespace logbook
