#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::Removal removal_without_positions(SQLite::Statement& row) {
  record::Removal removal;
  removal.joint = code_at(row, 0);
  removal.broke = word_at<record::BreakLoose>(row, 1);
  removal.marked = flag_at(row, 2);
  removal.bag = text_at(row, 3);
  removal.note = text_at(row, 4);
  removal.other_length = if_any(length_at, row, 6);
  removal.other_size = text_at(row, 7);
  removal.other_grade = text_at(row, 8);
  removal.other_length_typed = text_at(row, 9);
  removal.damaged_thread = if_any(word_at<record::DamagedThread>, row, 10);
  return removal;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Removal& removal,
                 Rows<record::Removal>) {
  auto& row = writer.into("removal", R"(
      (entry_id, joint_code, broke, marked, bag, note, other_length_mm,
                           other_length_typed, other_size, other_grade, damaged_thread)
      VALUES (:id, :joint, :broke, :marked, :bag, :note, :length, :length_typed, :size,
              :grade, :damaged_thread))");
  row.bind(":id", id);
  row.bind(":joint", removal.joint);
  row.bind(":broke", text_of(removal.broke));
  row.bind(":marked", removal.marked ? 1 : 0);
  row.bind(":bag", removal.bag);
  row.bind(":note", removal.note);
  if (removal.other_length) row.bind(":length", removal.other_length->in_millimetres());
  row.bind(":length_typed", removal.other_length_typed);
  row.bind(":size", removal.other_size);
  row.bind(":grade", removal.other_grade);
  if (removal.damaged_thread) row.bind(":damaged_thread", text_of(*removal.damaged_thread));
  row.exec();
  insert_positions(writer, "removal_position", id, removal.positions);
}

std::vector<record::Entry<record::Removal>> read_rows(SQLite::Database& database,
                                                      const RowFilter& filter,
                                                      Rows<record::Removal>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.broke, rows.marked, rows.bag, rows.note, p.position,
             rows.other_length_mm, rows.other_size, rows.other_grade, rows.other_length_typed,
             rows.damaged_thread
      FROM removal rows LEFT JOIN entry e ON e.id = rows.entry_id
                        LEFT JOIN removal_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::Removal>(row, filter, 5, removal_without_positions);
}

}  // namespace logbook
