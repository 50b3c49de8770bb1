#include "cli/csv_sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/lookup.h"
#include "exchange/csv.h"
#include "failure/failure.h"
#include "quantity/number_text.h"

namespace cli {

std::vector<const CsvSheet*> all_sheets() {
  return {&joint_sheet(), &wrench_sheet(), &finding_sheet(), &tightening_sheet()};
}

const CsvSheet& sheet_named(std::string_view name) {
  std::vector<std::string> names;
  for (const auto* sheet : all_sheets()) {
    if (sheet->name == name) return *sheet;
    names.emplace_back(sheet->name);
  }
  throw failure::UsageError(fmt::format("there is no table {}{}; there are {}",
                                        quantity::quoted(name), suggestion(name, names),
                                        fmt::join(names, ", ")));
}

std::string csv_of(const CsvSheet& sheet, const record::Job& job) {
  auto text = exchange::write_csv_row({sheet.columns.begin(), sheet.columns.end()});
  for (const auto& row : sheet.rows_of(job)) text += exchange::write_csv_row(row);
  return text;
}

}  // namespace cli
