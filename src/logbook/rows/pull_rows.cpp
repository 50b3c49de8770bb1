#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::Pull pull_of(SQLite::Statement& row) {
  record::Pull pull;
  pull.joint = code_at(row, 0);
  pull.position = position_at(row, 1);
  pull.wrench = some_text_at(row, 2);
  pull.unit = unit_at(row, 3);
  pull.restart = word_at<record::Restart>(row, 4);
  pull.reading.setting = positive_at(row, 5);
  pull.reading.mark = word_at<record::Mark>(row, 6);
  pull.reading.offset = if_any(angle_at, row, 7);
  pull.typed = text_at(row, 8);
  if (record::reached(pull.reading.mark)) {
    refuse_cell(row, 6, "short or no-move; the pull that reached the mark stands in the finding");
  }
  record::check_readings({pull.reading});
  return pull;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Pull& pull,
                 Rows<record::Pull>) {
  auto& row = writer.into("pull", R"(
      (entry_id, joint_code, position, wrench_name, scale_unit, restart, setting,
                        mark, offset_degrees, reading_typed)
      VALUES (:id, :joint, :position, :wrench, :unit, :restart, :setting, :mark, :offset, :typed))");
  row.bind(":id", id);
  row.bind(":joint", pull.joint);
  row.bind(":position", pull.position);
  row.bind(":wrench", pull.wrench);
  row.bind(":unit", text_of(pull.unit));
  row.bind(":restart", text_of(pull.restart));
  row.bind(":setting", pull.reading.setting);
  row.bind(":mark", text_of(pull.reading.mark));
  if (pull.reading.offset) row.bind(":offset", pull.reading.offset->in_degrees());
  row.bind(":typed", pull.typed);
  row.exec();
}

std::vector<record::Entry<record::Pull>> read_rows(SQLite::Database& database,
                                                   const RowFilter& filter, Rows<record::Pull>) {
  if (is_empty(database, "pull")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.position, rows.wrench_name, rows.scale_unit, rows.restart,
             rows.setting, rows.mark, rows.offset_degrees, rows.reading_typed
      FROM pull rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Pull>(row, filter, pull_of);
}

}  // namespace logbook
