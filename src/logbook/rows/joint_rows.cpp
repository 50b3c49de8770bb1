#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"
#include "record/address.h"

namespace logbook {
namespace {

record::Joint joint_without_lists(SQLite::Statement& row) {
  record::Joint joint;
  joint.code = code_at(row, 0);
  joint.holds = text_at(row, 1);
  joint.size = text_at(row, 2);
  joint.length = if_any(length_at, row, 3);
  joint.grade = text_at(row, 4);
  joint.count = integer_at(row, 5, 1, record::kMostPositions);
  joint.layout = read_at(row, 6, record::read_layout);
  joint.one_time = flag_at(row, 7);
  joint.critical = flag_at(row, 8);
  joint.bench = flag_at(row, 9);
  joint.final_when = text_at(row, 10);
  joint.order = text_at(row, 11);
  joint.passes = text_at(row, 12);
  joint.length_typed = text_at(row, 13);
  joint.live_load = flag_at(row, 14);
  joint.into = text_at(row, 15);
  joint.engaged = if_any(length_at, row, 16);
  joint.engaged_typed = text_at(row, 17);
  joint.seat = text_at(row, 18);
  joint.face = if_any(length_at, row, 19);
  joint.face_typed = text_at(row, 20);
  return joint;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Joint& joint,
                 Rows<record::Joint>) {
  auto& row = writer.into("joint", R"(
      (entry_id, code, holds, size, length_mm, grade, count, layout, one_time,
                         critical, bench, final_when, order_text, passes, length_typed, live_load,
                         into_material, engaged_mm, engaged_typed, seat_material, face_mm,
                         face_typed)
      VALUES (:id, :code, :holds, :size, :length_mm, :grade, :count, :layout, :one_time,
              :critical, :bench, :final_when, :order, :passes, :length_typed, :live_load,
              :into, :engaged_mm, :engaged_typed, :seat, :face_mm, :face_typed))");
  row.bind(":id", id);
  row.bind(":code", joint.code);
  row.bind(":holds", joint.holds);
  row.bind(":size", joint.size);
  if (joint.length) row.bind(":length_mm", joint.length->in_millimetres());
  row.bind(":length_typed", joint.length_typed);
  row.bind(":into", joint.into);
  if (joint.engaged) row.bind(":engaged_mm", joint.engaged->in_millimetres());
  row.bind(":engaged_typed", joint.engaged_typed);
  row.bind(":seat", joint.seat);
  if (joint.face) row.bind(":face_mm", joint.face->in_millimetres());
  row.bind(":face_typed", joint.face_typed);
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

  insert_texts(writer, "joint_after", "(entry_id, after_code)", id, joint.after);
  insert_texts(writer, "joint_covers", "(entry_id, covered_code)", id, joint.covers);
  std::vector<std::string> due;
  for (const auto& interval : joint.rechecks) due.push_back(record::write_exact(interval));
  insert_texts(writer, "joint_recheck", "(entry_id, due)", id, due);
}

std::vector<record::Entry<record::Joint>> read_rows(SQLite::Database& database,
                                                    const RowFilter& filter, Rows<record::Joint>) {
  ChildRows after(database, "joint_after", "after_code");
  ChildRows covers(database, "joint_covers", "covered_code");
  ChildRows due(database, "joint_recheck", "due");
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.code, rows.holds, rows.size, rows.length_mm, rows.grade, rows.count,
             rows.layout, rows.one_time, rows.critical, rows.bench, rows.final_when,
             rows.order_text, rows.passes, rows.length_typed, rows.live_load,
             rows.into_material, rows.engaged_mm, rows.engaged_typed, rows.seat_material,
             rows.face_mm, rows.face_typed
      FROM joint rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("code")));
  filter.bind(row);
  return gathered<record::Joint>(row, filter, [&](SQLite::Statement& each) {
    auto joint = joint_without_lists(each);
    const auto id = id_of(each);
    joint.after = after.codes_of(id);
    joint.covers = covers.codes_of(id);
    for (const auto& text : due.texts_of(id)) {
      joint.rechecks.push_back(record::read_recheck_interval(text));
    }
    return joint;
  });
}

}  // namespace logbook
