#pragma once

#include <cstddef>
#include <string>
#include <unordered_map>
#include <vector>

#include "exchange/csv.h"
#include "tables/csv_table.h"

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

  // The same for what was read from it: the lines that it added, from `first` on.
  void refuse_same_values(const Intake& intake, std::size_t first, std::size_t line);

 private:
  [[nodiscard]] std::string as_given(std::vector<std::string> cells) const;
  [[noreturn]] void refuse_as(std::size_t known_line) const;

  const CsvTable& table_;
  std::vector<bool> is_given_;                          // for each column of the table
  std::unordered_map<std::string, std::size_t> lines_;  // of the file; 0 in the logbook
  std::unordered_map<std::string, std::size_t> typed_;  // the rows of the file, cell by cell
};

}  // namespace tables
