#include <fmt/format.h>

#include "act/option_error.h"
#include "act/wrench_entry.h"
#include "tables/csv_table.h"
#include "tables/stamp_cells.h"

namespace tables {
namespace {

std::vector<std::vector<std::string>> wrench_rows(const record::Job& job) {
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

void take_wrench(const TableRow& row, Intake& intake) {
  act::WrenchWords options;
  options.name = row["name"];
  options.range = row.with_unit("range", "unit");
  options.graduation = row.with_unit("graduation", "unit");
  options.kind = row["kind"];
  options.accuracy = row["accuracy"];
  options.serial = row["serial"];
  options.calibrated = row["calibrated"];
  options.valid = row["valid"];
  options.found_off = row["found-off"];
  const auto day = record::local_day(intake.done_at(row));
  auto wrench = act::wrench_from(options, intake.wrench(options.name), day);
  intake.remark(act::remarks_on(wrench, day));
  intake.add(row, std::move(wrench));
}

}  // namespace

const CsvTable& wrench_table() {
  static const CsvTable table{"wrenches",
                              {"name", "range", "graduation", "kind", "accuracy", "serial",
                               "calibrated", "valid", "found-off", "by", "at"},
                              {"unit"},
                              {"name"},
                              {"range", "graduation", "accuracy", "found-off"},
                              wrench_rows,
                              take_wrench,
                              true};
  return table;
}

}  // namespace tables
