#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"

namespace logbook {

void insert_rows(SQLite::Database& database, const std::string& id,
                 const record::Clearance& clearance, Rows<record::Clearance>) {
  SQLite::Statement row(
      database, "INSERT INTO clearance (entry_id, joint_code, gap_mm) VALUES (:id, :joint, :gap)");
  row.bind(":id", id);
  row.bind(":joint", clearance.joint);
  row.bind(":gap", clearance.gap.in_millimetres());
  row.exec();
  insert_positions(database, "clearance_position", id, clearance.positions);
}

std::vector<record::Entry<record::Clearance>> read_rows(SQLite::Database& database,
                                                        const RowFilter& filter,
                                                        Rows<record::Clearance>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.gap_mm, p.position
      FROM clearance rows CROSS JOIN entry e ON e.id = rows.entry_id
                          LEFT JOIN clearance_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::Clearance>(row, filter, 2, [](SQLite::Statement& first) {
    return record::Clearance{code_at(first, 0), {}, length_at(first, 1)};
  });
}

}  // namespace logbook
