#include "logbook/rows/item_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::CountedItem& item) {
  SQLite::Statement row(database, R"(
      INSERT INTO item (entry_id, code, what, count, before_joint)
      VALUES (:id, :code, :what, :count, :before))");
  row.bind(":id", id);
  row.bind(":code", item.code);
  row.bind(":what", item.what);
  row.bind(":count", item.count);
  row.bind(":before", item.before);
  row.exec();
}

void insert(SQLite::Database& database, const std::string& id, const record::ItemReturn& back) {
  SQLite::Statement row(
      database, "INSERT INTO item_return (entry_id, code, count) VALUES (:id, :code, :count)");
  row.bind(":id", id);
  row.bind(":code", back.code);
  row.bind(":count", back.count);
  row.exec();
}

std::vector<record::Entry<record::CountedItem>> read_items(SQLite::Database& database,
                                                           const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, i.code, i.what, i.count, i.before_joint
      FROM item i JOIN {} e ON e.id = i.entry_id {} ORDER BY i.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("i.code")));
  filter.bind(row);
  std::vector<record::Entry<record::CountedItem>> items;
  while (row.executeStep()) {
    items.push_back(
        {stamp_of(row), {text_at(row, 0), text_at(row, 1), integer_at(row, 2), text_at(row, 3)}});
  }
  return items;
}

std::vector<record::Entry<record::ItemReturn>> read_item_returns(SQLite::Database& database,
                                                                 const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, r.code, r.count
      FROM item_return r JOIN {} e ON e.id = r.entry_id {} ORDER BY r.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("r.code")));
  filter.bind(row);
  std::vector<record::Entry<record::ItemReturn>> returns;
  while (row.executeStep()) {
    returns.push_back({stamp_of(row), {text_at(row, 0), integer_at(row, 1)}});
  }
  return returns;
}

}  // namespace logbook
