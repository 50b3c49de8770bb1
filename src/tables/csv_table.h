#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/csv.h"
#include "logbook/logbook.h"
#include "record/job.h"
#include "tables/intake.h"
#include "tables/table_row.h"

namespace tables {

// A table of the logbook as a spreadsheet has it: every row is what one command would record, every
// column one of its options without the hyphens in front, besides `by` and `at`.
struct CsvTable {
  std::string_view name;                    // "joints"
  std::vector<std::string_view> columns;    // in the order in which they are written
  std::vector<std::string_view> also_read;  // units that a file may keep apart from their values
  std::vector<std::string_view> needed;     // columns that every file has
  std::vector<std::string_view> decimal;    // columns of numbers, which may have decimals

  // The current lines as rows of `columns`. Where each row follows from one line alone, those of
  // some lines are some of the rows.
  std::vector<std::vector<std::string>> (*rows_of)(const record::Job& job);

  // Takes one row, which adds one line or more. act::OptionError or another refusal of the command
  // for what cannot be taken.
  void (*take)(const TableRow& row, Intake& intake);

  bool is_of_single_lines = false;  // each row follows from one line alone
};

[[nodiscard]] const CsvTable& joint_table();
[[nodiscard]] const CsvTable& wrench_table();
[[nodiscard]] const CsvTable& finding_table();
[[nodiscard]] const CsvTable& tightening_table();
[[nodiscard]] const CsvTable& photograph_table();

// How the file with a photograph is named beside the table: by its SHA-256, so that it is the same
// each time, and holds nothing that somebody typed.
[[nodiscard]] std::string file_name_of(const record::Photograph& photograph);

// All five.
[[nodiscard]] std::vector<const CsvTable*> all_tables();

// The one of this name. UsageError, naming all, for any other word.
[[nodiscard]] const CsvTable& table_named(std::string_view name);

// Whether a column of it is one of numbers.
[[nodiscard]] bool is_decimal(const CsvTable& table, std::string_view column);

// Writes the whole table as text with separators, its header first, piece by piece to `out`;
// numbers as that spreadsheet reads them.
void write_csv(const CsvTable& table, const logbook::Logbook& logbook, exchange::Decimals decimals,
               const std::function<void(std::string_view)>& out);

}  // namespace tables
