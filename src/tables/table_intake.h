#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/csv.h"
#include "tables/csv_table.h"
#include "tables/intake.h"

namespace tables {

// What the rows of a file would add to the logbook, and every row that cannot be taken.
struct TakenTable {
  std::vector<NewLine> lines;
  std::vector<exchange::CsvFault> faults;  // in the order of the rows; each row's first alone
  std::vector<std::string> header;
  std::vector<std::string> remarks = {};  // what is odd about rows that are taken all the same
};

// The table whose columns the header of the file names, or the one that is named. UsageError where
// none was named and the header does not tell.
[[nodiscard]] const CsvTable& table_of(const exchange::CsvText& text, std::string_view named);

// Checks each row as the command that it stands for would, against the job and the rows before it.
// Rows that say what the logbook or a row before says are refused: most often the file was imported
// before, or a row was copied. Calls `step` after each row.
[[nodiscard]] TakenTable take_table(const exchange::CsvText& text, const CsvTable& table,
                                    record::Job job, const logbook::Writer& writer,
                                    const FileBeside& file_beside,
                                    const std::function<void()>& step);

// The faults as a person reads them, with the names of the columns; beyond 50 only how many.
[[nodiscard]] std::string faults_text(std::string_view file, const TakenTable& taken);

}  // namespace tables
