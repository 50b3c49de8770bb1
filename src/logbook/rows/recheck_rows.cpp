#include "logbook/rows/recheck_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"
#include "logbook/rows/word_columns.h"

namespace logbook {
namespace {

record::Recheck recheck_without_positions(SQLite::Statement& row) {
  record::Recheck recheck{text_at(row, 0), {}, std::nullopt, counter_from(text_at(row, 2))};
  if (!is_null_at(row, 1)) recheck.turned = quantity::Angle::degrees(number_at(row, 1));
  return recheck;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Recheck& recheck) {
  SQLite::Statement row(database, R"(
      INSERT INTO recheck (entry_id, joint_code, turned_degrees, counter)
      VALUES (:id, :joint, :turned, :counter))");
  row.bind(":id", id);
  row.bind(":joint", recheck.joint);
  if (recheck.turned) row.bind(":turned", recheck.turned->in_degrees());
  row.bind(":counter", counter_text(recheck.counter));
  row.exec();
  insert_positions(database, "recheck_position", id, recheck.positions);
}

std::vector<record::Entry<record::Recheck>> read_rechecks(SQLite::Database& database,
                                                          const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, r.joint_code, r.turned_degrees, r.counter, p.position
      FROM recheck r JOIN {} e ON e.id = r.entry_id
                     JOIN recheck_position p ON p.entry_id = r.entry_id
      {} ORDER BY r.entry_id, p.position)",
                                    kStampColumns, filter.entries(), filter.where("r.joint_code")));
  filter.bind(row);
  return gathered<record::Recheck>(row, 3, recheck_without_positions);
}

}  // namespace logbook
