#include "logbook/rows/stripe_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"
#include "logbook/rows/word_columns.h"

namespace logbook {
namespace {

record::FinalStripe stripe_without_positions(SQLite::Statement& row) {
  return {text_at(row, 0), {}, integer_at(row, 1) != 0, counter_from(text_at(row, 2))};
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::FinalStripe& stripe) {
  SQLite::Statement row(database, R"(
      INSERT INTO stripe (entry_id, joint_code, teardown_mark_wiped, counter)
      VALUES (:id, :joint, :wiped, :counter))");
  row.bind(":id", id);
  row.bind(":joint", stripe.joint);
  row.bind(":wiped", stripe.teardown_mark_wiped ? 1 : 0);
  row.bind(":counter", counter_text(stripe.counter));
  row.exec();
  insert_positions(database, "stripe_position", id, stripe.positions);
}

std::vector<record::Entry<record::FinalStripe>> read_stripes(SQLite::Database& database,
                                                             const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, s.joint_code, s.teardown_mark_wiped, s.counter, p.position
      FROM stripe s JOIN {} e ON e.id = s.entry_id
                    JOIN stripe_position p ON p.entry_id = s.entry_id
      {} ORDER BY s.entry_id, p.position)",
                                    kStampColumns, filter.entries(), filter.where("s.joint_code")));
  filter.bind(row);
  return gathered<record::FinalStripe>(row, 3, stripe_without_positions);
}

}  // namespace logbook
