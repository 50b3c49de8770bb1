#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::Recheck recheck_without_positions(SQLite::Statement& row) {
  record::Recheck recheck{code_at(row, 0), {}, std::nullopt, counter_at(row, 2)};
  if (!is_null_at(row, 1)) recheck.turned = quantity::Angle::degrees(positive_at(row, 1));
  return recheck;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Recheck& recheck,
                 Rows<record::Recheck>) {
  auto& row = writer.into("recheck", R"(
      (entry_id, joint_code, turned_degrees, counter)
      VALUES (:id, :joint, :turned, :counter))");
  row.bind(":id", id);
  row.bind(":joint", recheck.joint);
  if (recheck.turned) row.bind(":turned", recheck.turned->in_degrees());
  row.bind(":counter", text_of(recheck.counter));
  row.exec();
  insert_positions(writer, "recheck_position", id, recheck.positions);
}

std::vector<record::Entry<record::Recheck>> read_rows(SQLite::Database& database,
                                                      const RowFilter& filter,
                                                      Rows<record::Recheck>) {
  if (is_empty(database, "recheck")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.turned_degrees, rows.counter, p.position
      FROM recheck rows LEFT JOIN entry e ON e.id = rows.entry_id
                        LEFT JOIN recheck_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::Recheck>(row, filter, 3, recheck_without_positions);
}

}  // namespace logbook
