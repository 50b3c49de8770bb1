#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::HoldPointStep step_of(SQLite::Statement& row) {
  return {code_at(row, 0), word_at<record::HoldPointMove>(row, 1), text_at(row, 2)};
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::HoldPoint& point,
                 Rows<record::HoldPoint>) {
  auto& row = writer.into("hold_point", R"(
      (entry_id, code, what, wait_seconds)
      VALUES (:id, :code, :what, :wait))");
  row.bind(":id", id);
  row.bind(":code", point.code);
  row.bind(":what", point.what);
  if (point.wait) row.bind(":wait", static_cast<std::int64_t>(point.wait->seconds.count()));
  row.exec();
  insert_texts(writer, "hold_point_joint", "(entry_id, joint_code)", id, point.joints);
}

void insert_rows(RowWriter& writer, const std::string& id, const record::HoldPointStep& step,
                 Rows<record::HoldPointStep>) {
  auto& row = writer.into("hold_point_step", R"(
      (entry_id, code, move, note)
      VALUES (:id, :code, :move, :note))");
  row.bind(":id", id);
  row.bind(":code", step.code);
  row.bind(":move", text_of(step.move));
  row.bind(":note", step.note);
  row.exec();
}

std::vector<record::Entry<record::HoldPoint>> read_rows(SQLite::Database& database,
                                                        const RowFilter& filter,
                                                        Rows<record::HoldPoint>) {
  if (is_empty(database, "hold_point")) return {};
  ChildRows joints(database, "hold_point_joint", "joint_code");
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.code, rows.what, rows.wait_seconds
      FROM hold_point rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("code")));
  filter.bind(row);
  return gathered<record::HoldPoint>(row, filter, [&](SQLite::Statement& each) {
    record::HoldPoint point{code_at(each, 0), some_text_at(each, 1), std::nullopt,
                            joints.codes_of(id_of(each))};
    if (!is_null_at(each, 2)) {
      constexpr int kMost = static_cast<int>(record::kLongestSpan.count());
      point.wait = record::SpanOfTime{std::chrono::seconds(integer_at(each, 2, 1, kMost))};
    }
    return point;
  });
}

std::vector<record::Entry<record::HoldPointStep>> read_rows(SQLite::Database& database,
                                                            const RowFilter& filter,
                                                            Rows<record::HoldPointStep>) {
  if (is_empty(database, "hold_point_step")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.code, rows.move, rows.note
      FROM hold_point_step rows LEFT JOIN entry e ON e.id = rows.entry_id
      {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("code")));
  filter.bind(row);
  return gathered<record::HoldPointStep>(row, filter, step_of);
}

}  // namespace logbook
