#include "logbook/rows/row_filter.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace logbook {

std::string RowFilter::where(std::string_view name_column) const {
  std::string conditions;
  const auto add = [&](std::string_view condition) {
    conditions += conditions.empty() ? "WHERE " : " AND ";
    conditions += condition;
  };
  if (name) add(fmt::format("rows.{} = :name", name_column));
  if (from_id) add("rows.entry_id >= :from");
  if (until_id) add("rows.entry_id < :until");
  if (!struck_too) add("rows.entry_id NOT IN (SELECT struck_id FROM strike)");
  return conditions;
}

void RowFilter::bind(SQLite::Statement& row) const {
  if (name) row.bind(":name", std::string(*name));
  if (from_id) row.bind(":from", std::string(*from_id));
  if (until_id) row.bind(":until", std::string(*until_id));
}

}  // namespace logbook
