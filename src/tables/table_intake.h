#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "exchange/csv.h"
#include "tables/csv_table.h"
#include "tables/intake.h"
#include "tables/known_rows.h"

namespace tables {

// The table whose columns the header of the file names, or the one that is named; no header where
// the file is empty. UsageError where none was named and the header does not tell.
[[nodiscard]] const CsvTable& table_of(const exchange::CsvRow* header, std::string_view named);

// Takes the rows of a file one after the other. Each is checked as the command that it stands for
// would, against the job and the rows before it. Rows that say what the logbook or a row before
// says are refused: most often the file was imported before, or a row was copied. `file_beside` has
// to outlive it.
class TableIntake {
 public:
  TableIntake(const CsvTable& table, const exchange::CsvRow& header,
              const std::vector<exchange::CsvFault>& of_header, exchange::Decimals decimals,
              record::Job job, const logbook::Writer& writer, const FileBeside& file_beside);

  // The next row, with what of it could not be read. The lines that it adds; none where it cannot
  // be taken.
  [[nodiscard]] std::vector<NewLine> take(const exchange::CsvRow& cells,
                                          const std::vector<exchange::CsvFault>& unread);

  // False where the header already leaves every row unread, and behind so many faults that nobody
  // mends them one by one: the rest of the file, which may have no end, says nothing more.
  [[nodiscard]] bool is_worth_going_on() const;

  // How many faults there are so far: each row's first alone, but all that could not be read.
  [[nodiscard]] std::size_t faults() const { return fault_count_; }

  // The faults as a person reads them, with the names of the columns; beyond 50 only how many.
  [[nodiscard]] std::string faults_text(std::string_view file) const;

  // What is odd about rows that are taken all the same.
  [[nodiscard]] std::vector<std::string> remarks();

 private:
  void add_faults(const std::vector<exchange::CsvFault>& faults);
  [[nodiscard]] exchange::CsvFault fault(const exchange::CsvRow& cells, std::string_view column,
                                         const std::string& why) const;
  [[nodiscard]] std::vector<NewLine> taken(exchange::CsvRow cells);

  const CsvTable& table_;
  const std::vector<std::string> header_;
  const TableColumns columns_;
  std::vector<std::size_t> with_comma_;  // where columns stand whose numbers have a decimal comma
  Intake intake_;
  KnownRows known_;
  bool is_header_known_ = true;
  std::size_t fault_count_ = 0;
  std::vector<exchange::CsvFault> faults_;  // in the order of the rows; those that are shown
  std::vector<record::Joint> joints_;       // that the rows add
};

}  // namespace tables
