#include "logbook/rows/renewal_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Renewal& renewal) {
  SQLite::Statement row(database,
                        "INSERT INTO renewal (entry_id, joint_code) VALUES (:id, :joint)");
  row.bind(":id", id);
  row.bind(":joint", renewal.joint);
  row.exec();
  insert_positions(database, "renewal_position", id, renewal.positions);
}

std::vector<record::Entry<record::Renewal>> read_renewals(SQLite::Database& database,
                                                          const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, r.joint_code, p.position
      FROM renewal r JOIN {} e ON e.id = r.entry_id
                     JOIN renewal_position p ON p.entry_id = r.entry_id
      {} ORDER BY r.entry_id, p.position)",
                                    kStampColumns, filter.entries(), filter.where("r.joint_code")));
  filter.bind(row);
  return gathered<record::Renewal>(row, 1, [](SQLite::Statement& first) {
    return record::Renewal{text_at(first, 0), {}};
  });
}

}  // namespace logbook
