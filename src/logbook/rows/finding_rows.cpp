#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/adapter_columns.h"
#include "logbook/rows/cells.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::Measured measured_without_readings(SQLite::Statement& row) {
  record::Measured measured;
  measured.joint = code_at(row, 0);
  measured.position = position_at(row, 1);
  measured.wrench = some_text_at(row, 2);
  measured.unit = unit_at(row, 3);
  if (!text_at(row, 4).empty()) measured.prevailing = read_at(row, 4, quantity::read_torque);
  measured.restart = word_at<record::Restart>(row, 5);
  measured.neighbours = if_any(word_at<record::Neighbours>, row, 6);
  measured.readings_typed = text_at(row, 7);
  measured.radius_typed = text_at(row, 8);
  measured.adapter = adapter_at(row, 12);
  if (measured.prevailing && measured.prevailing->torque().in_newton_metres() <= 0.0) {
    refuse_cell(row, 4, "a torque above 0");
  }
  check_follows(row, 20,
                measured.prevailing ? std::optional(measured.prevailing->torque()) : std::nullopt);
  return measured;
}

record::SettingReading reading_of(const record::Measured& measured, SQLite::Statement& row) {
  const double setting = positive_at(row, 9);
  check_follows(row, 21, record::applied_torque(measured, setting));
  return {setting, word_at<record::Mark>(row, 10), if_any(angle_at, row, 11)};
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Measured& measured,
                 Rows<record::Measured>) {
  static const auto values = fmt::format(R"(
      (entry_id, joint_code, position, wrench_name, scale_unit, prevailing_typed, prevailing_nm,
       restart, neighbours, readings_typed, radius_typed, {})
      VALUES (:id, :joint, :position, :wrench, :unit, :prevailing_typed, :prevailing_nm, :restart,
              :neighbours, :readings_typed, :radius_typed, {}))",
                                         kAdapterColumns, kAdapterValues);
  auto& row = writer.into("finding", values.c_str());
  row.bind(":id", id);
  row.bind(":joint", measured.joint);
  row.bind(":position", measured.position);
  row.bind(":wrench", measured.wrench);
  row.bind(":unit", text_of(measured.unit));
  row.bind(":prevailing_typed", "");
  if (measured.prevailing) {
    row.bind(":prevailing_typed", quantity::write_exact(*measured.prevailing));
    row.bind(":prevailing_nm", measured.prevailing->torque().in_newton_metres());
  }
  row.bind(":restart", text_of(measured.restart));
  if (measured.neighbours) row.bind(":neighbours", text_of(*measured.neighbours));
  row.bind(":readings_typed", measured.readings_typed);
  row.bind(":radius_typed", measured.radius_typed);
  bind_adapter(row, measured.adapter);
  row.exec();

  writer.add("setting_reading", "(entry_id, pull, setting, applied_nm, mark, offset_degrees)",
             measured.readings.size(), [&](SQLite::Statement& pulls, int first, std::size_t i) {
               const auto& reading = measured.readings[i];
               pulls.bind(first, id);
               pulls.bind(first + 1, static_cast<std::int64_t>(i) + 1);
               pulls.bind(first + 2, reading.setting);
               pulls.bind(first + 3,
                          record::applied_torque(measured, reading.setting).in_newton_metres());
               pulls.bind(first + 4, text_of(reading.mark));
               if (reading.offset) pulls.bind(first + 5, reading.offset->in_degrees());
             });
}

std::vector<record::Entry<record::Measured>> read_rows(SQLite::Database& database,
                                                       const RowFilter& filter,
                                                       Rows<record::Measured>) {
  // One row a pull, so that the whole table is read in one pass; pulls of one finding follow each
  // other.
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, rows.joint_code, rows.position, rows.wrench_name, rows.scale_unit,
             rows.prevailing_typed, rows.restart, rows.neighbours, rows.readings_typed,
             rows.radius_typed, p.setting, p.mark, p.offset_degrees, {},
             rows.prevailing_nm, p.applied_nm
      FROM finding rows LEFT JOIN entry e ON e.id = rows.entry_id
                        LEFT JOIN setting_reading p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.pull)",
                                    kStampColumns, kAdapterColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Measured>(row, filter, measured_without_readings,
                                    [](record::Measured& measured, SQLite::Statement& each) {
                                      measured.readings.push_back(reading_of(measured, each));
                                      record::check_readings(measured.readings);
                                    });
}

}  // namespace logbook
