#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/adapter_columns.h"
#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"
#include "record/address.h"

namespace logbook {
namespace {

// A guard against a slipped digit, far above any plan.
constexpr int kHighestPass = 10'000;

// Of the first of its positions; all of a line have one, or none has.
int place_at(SQLite::Statement& row, int column) {
  return integer_at(row, column, 1, record::kMostPositions);
}

record::Tightening tightening_without_positions(SQLite::Statement& row) {
  record::Tightening tightening;
  tightening.joint = code_at(row, 0);
  tightening.pass = integer_at(row, 1, 1, kHighestPass);
  tightening.target.kind = word_at<record::PassKind>(row, 2);
  tightening.target.torque = if_any(torque_at, row, 3);
  tightening.target.angle = if_any(angle_at, row, 4);
  tightening.wrench = text_at(row, 5);
  tightening.setting = if_any(positive_at, row, 6);
  tightening.unit = unit_at(row, 7);
  tightening.turned = if_any(angle_at, row, 8);
  tightening.skipped_why = text_at(row, 9);
  tightening.second_check = flag_at(row, 10);
  tightening.seen = text_at(row, 12);
  tightening.in_order = if_any(place_at, row, 13).has_value();
  tightening.adapter = adapter_at(row, 14);
  check_follows(row, 22, record::applied_torque(tightening));
  return tightening;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Tightening& tightening,
                 Rows<record::Tightening>) {
  static const auto values = fmt::format(R"(
      (entry_id, joint_code, pass, kind, target_nm, target_degrees, wrench_name, setting,
       scale_unit, applied_nm, turned_degrees, skipped_why, second_check, seen, {})
      VALUES (:id, :joint, :pass, :kind, :target_nm, :target_degrees, :wrench, :setting, :unit,
              :applied, :turned, :skipped_why, :second_check, :seen, {}))",
                                         kAdapterColumns, kAdapterValues);
  auto& row = writer.into("tightening", values.c_str());
  row.bind(":id", id);
  row.bind(":joint", tightening.joint);
  row.bind(":pass", tightening.pass);
  row.bind(":kind", text_of(tightening.target.kind));
  if (const auto& torque = tightening.target.torque) {
    row.bind(":target_nm", torque->in_newton_metres());
  }
  if (const auto& angle = tightening.target.angle) {
    row.bind(":target_degrees", angle->in_degrees());
  }
  row.bind(":wrench", tightening.wrench);
  if (tightening.setting) row.bind(":setting", *tightening.setting);
  row.bind(":unit", text_of(tightening.unit));
  if (const auto applied = record::applied_torque(tightening)) {
    row.bind(":applied", applied->in_newton_metres());
  }
  if (tightening.turned) row.bind(":turned", tightening.turned->in_degrees());
  row.bind(":skipped_why", tightening.skipped_why);
  row.bind(":second_check", tightening.second_check ? 1 : 0);
  row.bind(":seen", tightening.seen);
  bind_adapter(row, tightening.adapter);
  row.exec();
  const auto insert = tightening.in_order ? insert_positions_in_order : insert_positions;
  insert(writer, "tightening_position", id, tightening.positions);
}

std::vector<record::Entry<record::Tightening>> read_rows(SQLite::Database& database,
                                                         const RowFilter& filter,
                                                         Rows<record::Tightening>) {
  if (is_empty(database, "tightening")) return {};
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, rows.joint_code, rows.pass, rows.kind, rows.target_nm, rows.target_degrees,
             rows.wrench_name, rows.setting, rows.scale_unit, rows.turned_degrees,
             rows.skipped_why, rows.second_check, p.position, rows.seen, p.place,
             {}, rows.applied_nm
      FROM tightening rows LEFT JOIN entry e ON e.id = rows.entry_id
                           LEFT JOIN tightening_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.place, p.position)",
                                    kStampColumns, kAdapterColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::Tightening>(row, filter, 11, tightening_without_positions);
}

}  // namespace logbook
