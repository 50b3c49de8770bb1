#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/intake.h"
#include "cli/sheet_row.h"
#include "record/job.h"

namespace cli {

// A table of the logbook as a spreadsheet has it: every row is what one command would record, every
// column one of its options without the hyphens in front, besides `by` and `at`.
struct CsvSheet {
  std::string_view name;                    // "joints"
  std::vector<std::string_view> columns;    // in the order in which they are written
  std::vector<std::string_view> also_read;  // units that a file may keep apart from their values
  std::vector<std::string_view> needed;     // columns that every file has

  // The current lines as rows of `columns`.
  std::vector<std::vector<std::string>> (*rows_of)(const record::Job& job);

  // Takes one row, which adds one line or more. OptionError or another refusal of the command for
  // what cannot be taken.
  void (*take)(const SheetRow& row, Intake& intake);
};

[[nodiscard]] const CsvSheet& joint_sheet();
[[nodiscard]] const CsvSheet& wrench_sheet();
[[nodiscard]] const CsvSheet& finding_sheet();
[[nodiscard]] const CsvSheet& tightening_sheet();

// All four.
[[nodiscard]] std::vector<const CsvSheet*> all_sheets();

// The one of this name. UsageError, naming all, for any other word.
[[nodiscard]] const CsvSheet& sheet_named(std::string_view name);

// The whole table as comma-separated text, its header first.
[[nodiscard]] std::string csv_of(const CsvSheet& sheet, const record::Job& job);

}  // namespace cli
