#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"
#include "record/address.h"

namespace logbook {
namespace {

// As many of an item as there are positions of a joint: a guard against a slipped key.
int count_at(SQLite::Statement& row, int column) {
  return integer_at(row, column, 1, record::kMostPositions);
}

record::CountedItem item_of(SQLite::Statement& row) {
  return {code_at(row, 0), text_at(row, 1), count_at(row, 2), code_or_empty_at(row, 3)};
}

record::ItemReturn return_of(SQLite::Statement& row) { return {code_at(row, 0), count_at(row, 1)}; }

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::CountedItem& item,
                 Rows<record::CountedItem>) {
  auto& row = writer.into("item", R"(
      (entry_id, code, what, count, before_joint)
      VALUES (:id, :code, :what, :count, :before))");
  row.bind(":id", id);
  row.bind(":code", item.code);
  row.bind(":what", item.what);
  row.bind(":count", item.count);
  row.bind(":before", item.before);
  row.exec();
}

void insert_rows(RowWriter& writer, const std::string& id, const record::ItemReturn& back,
                 Rows<record::ItemReturn>) {
  auto& row = writer.into("item_return", "(entry_id, code, count) VALUES (:id, :code, :count)");
  row.bind(":id", id);
  row.bind(":code", back.code);
  row.bind(":count", back.count);
  row.exec();
}

std::vector<record::Entry<record::CountedItem>> read_rows(SQLite::Database& database,
                                                          const RowFilter& filter,
                                                          Rows<record::CountedItem>) {
  if (is_empty(database, "item")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.code, rows.what, rows.count, rows.before_joint
      FROM item rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("code")));
  filter.bind(row);
  return gathered<record::CountedItem>(row, filter, item_of);
}

std::vector<record::Entry<record::ItemReturn>> read_rows(SQLite::Database& database,
                                                         const RowFilter& filter,
                                                         Rows<record::ItemReturn>) {
  if (is_empty(database, "item_return")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.code, rows.count
      FROM item_return rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("code")));
  filter.bind(row);
  return gathered<record::ItemReturn>(row, filter, return_of);
}

}  // namespace logbook
