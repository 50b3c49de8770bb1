#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {

void insert_rows(RowWriter& writer, const std::string& id, const record::Renewal& renewal,
                 Rows<record::Renewal>) {
  auto& row = writer.into("renewal", "(entry_id, joint_code) VALUES (:id, :joint)");
  row.bind(":id", id);
  row.bind(":joint", renewal.joint);
  row.exec();
  insert_positions(writer, "renewal_position", id, renewal.positions);
}

std::vector<record::Entry<record::Renewal>> read_rows(SQLite::Database& database,
                                                      const RowFilter& filter,
                                                      Rows<record::Renewal>) {
  if (is_empty(database, "renewal")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, p.position
      FROM renewal rows LEFT JOIN entry e ON e.id = rows.entry_id
                        LEFT JOIN renewal_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::Renewal>(row, filter, 1, [](SQLite::Statement& first) {
    return record::Renewal{code_at(first, 0), {}};
  });
}

}  // namespace logbook
