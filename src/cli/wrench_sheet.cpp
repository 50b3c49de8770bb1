#include <fmt/format.h>

#include "cli/csv_sheet.h"
#include "cli/option_error.h"
#include "cli/stamp_cells.h"
#include "cli/wrench.h"

namespace cli {
namespace {

std::vector<std::vector<std::string>> rows_of(const record::Job& job) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& entry : job.wrenches) {
    const auto& wrench = entry.content;
    auto& row = rows.emplace_back(std::vector<std::string>{
        wrench.name, record::scale_text(wrench), record::graduation_text(wrench),
        std::string(record::word_of(wrench.kind)), record::accuracy_text(wrench), wrench.serial,
        wrench.calibrated ? record::write_day(*wrench.calibrated) : "",
        fmt::format("{} mo", wrench.valid_months),
        wrench.found_off ? quantity::write_exact(*wrench.found_off) : ""});
    add_stamp_cells(row, entry.stamp);
  }
  return rows;
}

void take(const SheetRow& row, Intake& intake) {
  WrenchOptions options;
  options.name = row["name"];
  options.range = row.with_unit("range", "unit");
  options.graduation = row.with_unit("graduation", "unit");
  options.kind = row["kind"];
  options.accuracy = row["accuracy"];
  options.serial = row["serial"];
  options.calibrated = row["calibrated"];
  options.valid = row["valid"];
  options.found_off = row["found-off"];
  intake.add(row, wrench_from(options, intake.wrench(options.name),
                              record::local_day(intake.done_at(row))));
}

}  // namespace

const CsvSheet& wrench_sheet() {
  static const CsvSheet sheet{"wrenches",
                              {"name", "range", "graduation", "kind", "accuracy", "serial",
                               "calibrated", "valid", "found-off", "by", "at"},
                              {"unit"},
                              {"name"},
                              rows_of,
                              take};
  return sheet;
}

}  // namespace cli
