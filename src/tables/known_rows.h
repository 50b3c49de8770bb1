#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "exchange/csv.h"
#include "tables/csv_table.h"
#include "tables/row_marks.h"

namespace tables {

// What the logbook and the rows before say already, so that nothing is taken twice. Two rows say
// the same where the values read are the same, however they were typed, as far as the columns of
// the file go.
class KnownRows {
 public:
  KnownRows(const CsvTable& table, const TableColumns& columns, const record::Job& job);

  // Refuses a row that repeats the cells of one before, or stands in the logbook as export writes
  // it. act::OptionError.
  void refuse_repeated(const exchange::CsvRow& cells, const TableRow& row);

  // The same for what was read from it: the lines that it added.
  void refuse_same_values(std::span<const NewLine> lines, std::size_t line);

  // Remembers the row of these cells, whether it was taken or not.
  void remember(std::size_t line);

 private:
  [[nodiscard]] RowMarks::Mark as_given(const std::vector<std::string>& cells);
  [[noreturn]] void refuse_as(std::size_t known_line) const;

  const CsvTable& table_;
  std::vector<bool> is_given_;  // for each column of the table
  RowMarks said_;               // by line of the file; 0 in the logbook
  RowMarks typed_;              // the rows of the file, cell by cell, that `said_` does not tell
  RowMarks::Mark last_said_;    // of the row at hand, as its columns have it
  RowMarks::Mark last_typed_;   // and all of its cells
  std::string text_;
};

}  // namespace tables
