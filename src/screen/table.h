#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace screen {

// Columns of text that line up on a terminal.
class Table {
 public:
  enum class Align { Left, Right };

  void column(std::string_view title, Align align = Align::Left);

  // One cell for each column.
  void row(std::vector<std::string> cells);

  // The columns parted by two blanks, each line starting with `indent`; a heading first, unless
  // every title is empty.
  [[nodiscard]] std::string text(std::string_view indent) const;

  // Columns that it takes, without an indent.
  [[nodiscard]] std::size_t width() const;

  // The same where it is no wider than `width`; else every row as a sentence of its own, "position
  // J06/03; bracket 77.5..82.5; ...", broken at blanks.
  [[nodiscard]] std::string fitted(std::string_view indent, std::size_t width) const;

 private:
  struct Column {
    std::string title;
    Align align;
  };
  [[nodiscard]] std::vector<std::size_t> widths() const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace screen
