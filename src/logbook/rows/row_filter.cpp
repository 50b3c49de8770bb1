#include "logbook/rows/row_filter.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace logbook {

std::string RowFilter::where(std::string_view column) const {
  return name ? fmt::format("WHERE {} = :name", column) : std::string();
}

void RowFilter::bind(SQLite::Statement& row) const {
  if (name) row.bind(":name", std::string(*name));
}

}  // namespace logbook
