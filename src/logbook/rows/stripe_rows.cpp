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

record::FinalStripe stripe_without_positions(SQLite::Statement& row) {
  return {code_at(row, 0), {}, flag_at(row, 1), counter_at(row, 2)};
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::FinalStripe& stripe,
                 Rows<record::FinalStripe>) {
  auto& row = writer.into("stripe", R"(
      (entry_id, joint_code, teardown_mark_wiped, counter)
      VALUES (:id, :joint, :wiped, :counter))");
  row.bind(":id", id);
  row.bind(":joint", stripe.joint);
  row.bind(":wiped", stripe.teardown_mark_wiped ? 1 : 0);
  row.bind(":counter", text_of(stripe.counter));
  row.exec();
  insert_positions(writer, "stripe_position", id, stripe.positions);
}

std::vector<record::Entry<record::FinalStripe>> read_rows(SQLite::Database& database,
                                                          const RowFilter& filter,
                                                          Rows<record::FinalStripe>) {
  if (is_empty(database, "stripe")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.teardown_mark_wiped, rows.counter, p.position
      FROM stripe rows LEFT JOIN entry e ON e.id = rows.entry_id
                       LEFT JOIN stripe_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered_positions<record::FinalStripe>(row, filter, 3, stripe_without_positions);
}

}  // namespace logbook
