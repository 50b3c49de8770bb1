#include "logbook/rows/finding_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"
#include "logbook/rows/word_columns.h"

namespace logbook {
namespace {

record::Measured measured_without_readings(SQLite::Statement& row) {
  record::Measured measured;
  measured.joint = text_at(row, 0);
  measured.position = integer_at(row, 1);
  measured.wrench = text_at(row, 2);
  measured.unit = unit_from(text_at(row, 3));
  measured.adapter = text_at(row, 4);
  measured.adapter_ratio = number_at(row, 5);
  const std::string prevailing = text_at(row, 6);
  if (!prevailing.empty()) measured.prevailing = quantity::read_torque(prevailing);
  measured.restart = record::read_word<record::Restart>(text_at(row, 7));
  if (!is_null_at(row, 8)) {
    measured.neighbours = record::read_word<record::Neighbours>(text_at(row, 8));
  }
  measured.readings_typed = text_at(row, 12);
  measured.radius_typed = text_at(row, 13);
  return measured;
}

record::SettingReading reading_of(SQLite::Statement& row) {
  record::SettingReading reading;
  reading.setting = number_at(row, 9);
  reading.mark = record::read_word<record::Mark>(text_at(row, 10));
  if (!is_null_at(row, 11)) reading.offset = quantity::Angle::degrees(number_at(row, 11));
  return reading;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Measured& measured) {
  SQLite::Statement row(database, R"(
      INSERT INTO finding (entry_id, joint_code, position, wrench_name, scale_unit, adapter,
                           adapter_ratio, prevailing_typed, prevailing_nm, restart, neighbours,
                           readings_typed, radius_typed)
      VALUES (:id, :joint, :position, :wrench, :unit, :adapter,
              :ratio, :prevailing_typed, :prevailing_nm, :restart, :neighbours,
              :readings_typed, :radius_typed))");
  row.bind(":id", id);
  row.bind(":joint", measured.joint);
  row.bind(":position", measured.position);
  row.bind(":wrench", measured.wrench);
  row.bind(":unit", unit_text(measured.unit));
  row.bind(":adapter", measured.adapter);
  row.bind(":ratio", measured.adapter_ratio);
  row.bind(":prevailing_typed", "");
  if (measured.prevailing) {
    row.bind(":prevailing_typed", quantity::write_exact(*measured.prevailing));
    row.bind(":prevailing_nm", measured.prevailing->torque().in_newton_metres());
  }
  row.bind(":restart", std::string(record::word_of(measured.restart)));
  if (measured.neighbours) {
    row.bind(":neighbours", std::string(record::word_of(*measured.neighbours)));
  }
  row.bind(":readings_typed", measured.readings_typed);
  row.bind(":radius_typed", measured.radius_typed);
  row.exec();

  SQLite::Statement pull(database, R"(
      INSERT INTO setting_reading (entry_id, pull, setting, applied_nm, mark, offset_degrees)
      VALUES (:id, :pull, :setting, :applied_nm, :mark, :offset))");
  int number = 0;
  for (const auto& reading : measured.readings) {
    pull.reset();
    pull.clearBindings();
    pull.bind(":id", id);
    pull.bind(":pull", ++number);
    pull.bind(":setting", reading.setting);
    pull.bind(":applied_nm", record::applied_torque(measured, reading.setting).in_newton_metres());
    pull.bind(":mark", std::string(record::word_of(reading.mark)));
    if (reading.offset) pull.bind(":offset", reading.offset->in_degrees());
    pull.exec();
  }
}

std::vector<record::Entry<record::Measured>> read_findings(SQLite::Database& database,
                                                           const RowFilter& filter) {
  // One row a pull, so that the whole table is read in one pass; pulls of one finding follow each
  // other.
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, f.joint_code, f.position, f.wrench_name, f.scale_unit, f.adapter, f.adapter_ratio,
             f.prevailing_typed, f.restart, f.neighbours, p.setting, p.mark, p.offset_degrees,
             f.readings_typed, f.radius_typed
      FROM finding f JOIN {} e ON e.id = f.entry_id
                     JOIN setting_reading p ON p.entry_id = f.entry_id
      {} ORDER BY f.entry_id, p.pull)",
                                    kStampColumns, filter.entries(), filter.where("f.joint_code")));
  filter.bind(row);
  std::vector<record::Entry<record::Measured>> findings;
  while (row.executeStep()) {
    if (findings.empty() || !is_of(row, findings.back().stamp)) {
      findings.push_back({stamp_of(row), measured_without_readings(row)});
    }
    findings.back().content.readings.push_back(reading_of(row));
  }
  return findings;
}

}  // namespace logbook
