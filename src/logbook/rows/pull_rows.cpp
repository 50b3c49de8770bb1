#include "logbook/rows/pull_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"
#include "logbook/rows/word_columns.h"

namespace logbook {
namespace {

record::Pull pull_of(SQLite::Statement& row) {
  record::Pull pull;
  pull.joint = text_at(row, 0);
  pull.position = integer_at(row, 1);
  pull.wrench = text_at(row, 2);
  pull.unit = unit_from(text_at(row, 3));
  pull.restart = record::read_word<record::Restart>(text_at(row, 4));
  pull.reading.setting = number_at(row, 5);
  pull.reading.mark = record::read_word<record::Mark>(text_at(row, 6));
  if (!is_null_at(row, 7)) pull.reading.offset = quantity::Angle::degrees(number_at(row, 7));
  pull.typed = text_at(row, 8);
  return pull;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Pull& pull) {
  SQLite::Statement row(database, R"(
      INSERT INTO pull (entry_id, joint_code, position, wrench_name, scale_unit, restart, setting,
                        mark, offset_degrees, reading_typed)
      VALUES (:id, :joint, :position, :wrench, :unit, :restart, :setting, :mark, :offset, :typed))");
  row.bind(":id", id);
  row.bind(":joint", pull.joint);
  row.bind(":position", pull.position);
  row.bind(":wrench", pull.wrench);
  row.bind(":unit", unit_text(pull.unit));
  row.bind(":restart", std::string(record::word_of(pull.restart)));
  row.bind(":setting", pull.reading.setting);
  row.bind(":mark", std::string(record::word_of(pull.reading.mark)));
  if (pull.reading.offset) row.bind(":offset", pull.reading.offset->in_degrees());
  row.bind(":typed", pull.typed);
  row.exec();
}

std::vector<record::Entry<record::Pull>> read_pulls(SQLite::Database& database,
                                                    const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, p.joint_code, p.position, p.wrench_name, p.scale_unit, p.restart, p.setting,
             p.mark, p.offset_degrees, p.reading_typed
      FROM pull p JOIN {} e ON e.id = p.entry_id {} ORDER BY p.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("p.joint_code")));
  filter.bind(row);
  std::vector<record::Entry<record::Pull>> pulls;
  while (row.executeStep()) pulls.push_back({stamp_of(row), pull_of(row)});
  return pulls;
}

}  // namespace logbook
