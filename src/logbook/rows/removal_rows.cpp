#include "logbook/rows/removal_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"

namespace logbook {
namespace {

record::Removal removal_without_positions(SQLite::Statement& row) {
  record::Removal removal;
  removal.joint = text_at(row, 0);
  removal.broke = record::read_word<record::BreakLoose>(text_at(row, 1));
  removal.marked = integer_at(row, 2) != 0;
  removal.bag = text_at(row, 3);
  removal.note = text_at(row, 4);
  if (!is_null_at(row, 6)) {
    removal.other_length = quantity::Length::millimetres(number_at(row, 6));
  }
  removal.other_size = text_at(row, 7);
  removal.other_grade = text_at(row, 8);
  removal.other_length_typed = text_at(row, 9);
  if (!is_null_at(row, 10)) {
    removal.damaged_thread = record::read_word<record::DamagedThread>(text_at(row, 10));
  }
  return removal;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Removal& removal) {
  SQLite::Statement row(database, R"(
      INSERT INTO removal (entry_id, joint_code, broke, marked, bag, note, other_length_mm,
                           other_length_typed, other_size, other_grade, damaged_thread)
      VALUES (:id, :joint, :broke, :marked, :bag, :note, :length, :length_typed, :size,
              :grade, :damaged_thread))");
  row.bind(":id", id);
  row.bind(":joint", removal.joint);
  row.bind(":broke", std::string(record::word_of(removal.broke)));
  row.bind(":marked", removal.marked ? 1 : 0);
  row.bind(":bag", removal.bag);
  row.bind(":note", removal.note);
  if (removal.other_length) row.bind(":length", removal.other_length->in_millimetres());
  row.bind(":length_typed", removal.other_length_typed);
  row.bind(":size", removal.other_size);
  row.bind(":grade", removal.other_grade);
  if (removal.damaged_thread) {
    row.bind(":damaged_thread", std::string(record::word_of(*removal.damaged_thread)));
  }
  row.exec();
  insert_positions(database, "removal_position", id, removal.positions);
}

std::vector<record::Entry<record::Removal>> read_removals(SQLite::Database& database,
                                                          const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, r.joint_code, r.broke, r.marked, r.bag, r.note, p.position,
             r.other_length_mm, r.other_size, r.other_grade, r.other_length_typed,
             r.damaged_thread
      FROM removal r JOIN {} e ON e.id = r.entry_id
                     JOIN removal_position p ON p.entry_id = r.entry_id
      {} ORDER BY r.entry_id, p.position)",
                                    kStampColumns, filter.entries(), filter.where("r.joint_code")));
  filter.bind(row);
  return gathered<record::Removal>(row, 5, removal_without_positions);
}

}  // namespace logbook
