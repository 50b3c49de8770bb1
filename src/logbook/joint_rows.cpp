#include "logbook/joint_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <unordered_map>

#include "logbook/stamp_columns.h"

namespace logbook {
namespace {

// The joints that each joint comes after, by entry id.
std::unordered_map<std::string, std::vector<std::string>> read_after(SQLite::Database& database) {
  std::unordered_map<std::string, std::vector<std::string>> after;
  SQLite::Statement row(
      database, "SELECT entry_id, after_code FROM joint_after ORDER BY entry_id, after_code");
  while (row.executeStep()) {
    after[row.getColumn(0).getString()].push_back(row.getColumn(1).getString());
  }
  return after;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Joint& joint) {
  SQLite::Statement row(database, R"(
      INSERT INTO joint (entry_id, code, holds, size, length_mm, grade, count, layout, one_time,
                         critical)
      VALUES (:id, :code, :holds, :size, :length_mm, :grade, :count, :layout, :one_time,
              :critical))");
  row.bind(":id", id);
  row.bind(":code", joint.code);
  row.bind(":holds", joint.holds);
  row.bind(":size", joint.size);
  if (joint.length) row.bind(":length_mm", joint.length->in_millimetres());
  row.bind(":grade", joint.grade);
  row.bind(":count", joint.count);
  row.bind(":layout", record::write_exact(joint.layout));
  row.bind(":one_time", joint.one_time ? 1 : 0);
  row.bind(":critical", joint.critical ? 1 : 0);
  row.exec();

  SQLite::Statement after(database,
                          "INSERT INTO joint_after (entry_id, after_code) VALUES (:id, :code)");
  for (const auto& code : joint.after) {
    after.reset();
    after.bind(":id", id);
    after.bind(":code", code);
    after.exec();
  }
}

std::vector<record::Entry<record::Joint>> read_joints(SQLite::Database& database,
                                                      const RowFilter& filter) {
  auto after = read_after(database);
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, j.code, j.holds, j.size, j.length_mm, j.grade, j.count, j.layout, j.one_time,
             j.critical
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
    auto stamp = stamp_of(row);
    joint.after = std::move(after[stamp.id]);
    joints.push_back({std::move(stamp), std::move(joint)});
  }
  return joints;
}

}  // namespace logbook
