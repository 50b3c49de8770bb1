#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace report {

// Columns of text that line up on a terminal.
class Table {
 public:
  enum class Align { Left, Right };

  void column(std::string_view title, Align align = Align::Left);

  // One cell for each column.
  void row(std::vector<std::string> cells);

  // A line that runs across the columns, indented as a cell of the first.
  void line(std::string_view text);

  // The columns parted by two blanks, each line starting with `indent`; a heading first, unless
  // every title is empty.
  [[nodiscard]] std::string text(std::string_view indent) const;

 private:
  struct Column {
    std::string title;
    Align align;
  };
  struct Row {
    std::vector<std::string> cells;
    std::string across;  // instead of cells
  };
  std::vector<Column> columns_;
  std::vector<Row> rows_;
};

}  // namespace report
