#include "tables/csv_table.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "act/lookup.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "quantity/visible_text.h"

namespace tables {

std::vector<const CsvTable*> all_tables() {
  return {&joint_table(), &wrench_table(), &finding_table(), &tightening_table(),
          &photograph_table()};
}

const CsvTable& table_named(std::string_view name) {
  std::vector<std::string> names;
  for (const auto* table : all_tables()) {
    if (table->name == name) return *table;
    names.emplace_back(table->name);
  }
  throw failure::UsageError(fmt::format("there is no table {}{}; there are {}",
                                        quantity::quoted(name), act::suggestion(name, names),
                                        fmt::join(names, ", ")));
}

bool is_decimal(const CsvTable& table, std::string_view column) {
  return std::ranges::find(table.decimal, column) != table.decimal.end();
}

void write_csv(const CsvTable& table, const logbook::Logbook& logbook, exchange::Decimals decimals,
               const std::function<void(std::string_view)>& out) {
  const auto write = [&](const record::Job& job, std::string text) {
    for (auto& row : table.rows_of(job)) {
      // What an earlier version took at entry; now it would be refused when it comes back.
      for (auto& cell : row) cell = quantity::visible(cell);
      if (decimals == exchange::Decimals::Comma) {
        for (std::size_t i = 0; i < row.size(); ++i) {
          if (is_decimal(table, table.columns[i])) {
            row[i] = exchange::with_decimal_comma(std::move(row[i]));
          }
        }
      }
      text += exchange::write_csv_row(row, decimals);
    }
    out(text);
  };
  auto header = exchange::write_csv_row({table.columns.begin(), table.columns.end()}, decimals);
  // Of the joints, whose lines are few beside the others, all are held.
  record::Job held;
  logbook.job_in_parts([&](record::Job part) {
    if (table.is_of_single_lines) return write(part, std::exchange(header, {}));
    std::ranges::move(part.joints, std::back_inserter(held.joints));
    std::ranges::move(part.specifications, std::back_inserter(held.specifications));
  });
  if (!table.is_of_single_lines) write(held, header);
}

}  // namespace tables
