#include "logbook/rows/tightening_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"
#include "logbook/rows/word_columns.h"

namespace logbook {
namespace {

record::Tightening tightening_without_positions(SQLite::Statement& row) {
  record::Tightening tightening;
  tightening.joint = text_at(row, 0);
  tightening.pass = integer_at(row, 1);
  tightening.target.kind = record::read_word<record::PassKind>(text_at(row, 2));
  if (!is_null_at(row, 3)) {
    tightening.target.torque = quantity::Torque::newton_metres(number_at(row, 3));
  }
  if (!is_null_at(row, 4)) tightening.target.angle = quantity::Angle::degrees(number_at(row, 4));
  tightening.wrench = text_at(row, 5);
  if (!is_null_at(row, 6)) tightening.setting = number_at(row, 6);
  tightening.unit = unit_from(text_at(row, 7));
  tightening.adapter = text_at(row, 8);
  tightening.adapter_ratio = number_at(row, 9);
  if (!is_null_at(row, 10)) tightening.turned = quantity::Angle::degrees(number_at(row, 10));
  tightening.skipped_why = text_at(row, 11);
  tightening.second_check = integer_at(row, 12) != 0;
  return tightening;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id,
            const record::Tightening& tightening) {
  SQLite::Statement row(database, R"(
      INSERT INTO tightening (entry_id, joint_code, pass, kind, target_nm, target_degrees,
                              wrench_name, setting, scale_unit, adapter, adapter_ratio, applied_nm,
                              turned_degrees, skipped_why, second_check)
      VALUES (:id, :joint, :pass, :kind, :target_nm, :target_degrees,
              :wrench, :setting, :unit, :adapter, :ratio, :applied,
              :turned, :skipped_why, :second_check))");
  row.bind(":id", id);
  row.bind(":joint", tightening.joint);
  row.bind(":pass", tightening.pass);
  row.bind(":kind", std::string(record::word_of(tightening.target.kind)));
  if (const auto& torque = tightening.target.torque) {
    row.bind(":target_nm", torque->in_newton_metres());
  }
  if (const auto& angle = tightening.target.angle) {
    row.bind(":target_degrees", angle->in_degrees());
  }
  row.bind(":wrench", tightening.wrench);
  if (tightening.setting) row.bind(":setting", *tightening.setting);
  row.bind(":unit", unit_text(tightening.unit));
  row.bind(":adapter", tightening.adapter);
  row.bind(":ratio", tightening.adapter_ratio);
  if (const auto applied = record::applied_torque(tightening)) {
    row.bind(":applied", applied->in_newton_metres());
  }
  if (tightening.turned) row.bind(":turned", tightening.turned->in_degrees());
  row.bind(":skipped_why", tightening.skipped_why);
  row.bind(":second_check", tightening.second_check ? 1 : 0);
  row.exec();
  insert_positions(database, "tightening_position", id, tightening.positions);
}

std::vector<record::Entry<record::Tightening>> read_tightenings(SQLite::Database& database,
                                                                const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, t.joint_code, t.pass, t.kind, t.target_nm, t.target_degrees, t.wrench_name,
             t.setting, t.scale_unit, t.adapter, t.adapter_ratio, t.turned_degrees, t.skipped_why,
             t.second_check, p.position
      FROM tightening t JOIN {} e ON e.id = t.entry_id
                        JOIN tightening_position p ON p.entry_id = t.entry_id
      {} ORDER BY t.entry_id, p.position)",
                                    kStampColumns, filter.entries(), filter.where("t.joint_code")));
  filter.bind(row);
  return gathered<record::Tightening>(row, 13, tightening_without_positions);
}

}  // namespace logbook
