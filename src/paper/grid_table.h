#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "paper/markup.h"

namespace paper {

// A table with this name and these headings. On a narrow screen each of its rows is a block with
// the heading before every cell, so that nothing has to be scrolled to. `look` is a class of the
// style sheet, which sets the width of its columns. end() closes it.
class GridTable {
 public:
  GridTable(Markup& page, std::string_view name, std::vector<std::string_view> headings,
            std::string_view look = "plain");

  // A row of text; the first cell heads it.
  void row(const std::vector<std::string_view>& cells);

  // A row cell by cell: begin_row, begin_cell and end_cell for each but the first, end_row.
  void begin_row(std::string_view first);
  void begin_cell();
  void cell(std::string_view text);
  void end_cell();
  void end_row();

  void end();

 private:
  Markup& page_;
  std::vector<std::string> headings_;
  std::size_t column_ = 0;
};

}  // namespace paper
