#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/csv.h"

namespace tables {

// Where each column of a file stands, from 0, by its name.
using TableColumns = std::map<std::string, std::size_t, std::less<>>;

// One row of a table that is imported, its cells by the names of their columns.
class TableRow {
 public:
  TableRow(const TableColumns& columns, const exchange::CsvRow& cells)
      : columns_(columns), cells_(cells) {}

  // The cell as it stands; empty where the file has no such column. A line end inside it counts as
  // a blank, since a line of the logbook is one line.
  [[nodiscard]] std::string operator[](std::string_view column) const;

  // Its parts between semicolons.
  [[nodiscard]] std::vector<std::string> list(std::string_view column) const;

  // Yes, or no where it is empty. act::OptionError for any other word.
  [[nodiscard]] bool yes(std::string_view column) const;

  // A cell that may carry its unit or leave that to a column of units. Without letters it carries
  // none, and the unit is put behind it. act::OptionError where the two name different units.
  [[nodiscard]] std::string with_unit(std::string_view column, std::string_view unit_column) const;

  // The same for a column that is of something else in the first place, the scale of a wrench: a
  // cell with a unit of its own keeps it.
  [[nodiscard]] std::string with_scale_unit(std::string_view column,
                                            std::string_view unit_column) const;

 private:
  const TableColumns& columns_;
  const exchange::CsvRow& cells_;
};

// "yes" or nothing, as TableRow::yes reads it.
[[nodiscard]] std::string yes_or_nothing(bool yes);

// As TableRow::list reads it.
[[nodiscard]] std::string listed(const std::vector<std::string>& parts);

}  // namespace tables
