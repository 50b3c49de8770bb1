#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace exchange {

// Comma-separated text, or with semicolons, after RFC 4180 (section 2, from memory), in UTF-8.

// One cell and the line of the text on which it begins, from 1.
struct CsvCell {
  std::string text;
  std::size_t line = 0;
};
using CsvRow = std::vector<CsvCell>;

// What cannot be read, at the line on which its row begins and a cell of it, both from 1.
struct CsvFault {
  std::size_t line = 0;
  std::size_t column = 0;
  std::string why;
};

// How a spreadsheet writes one and a half. The one with a comma parts its cells by semicolons.
enum class Decimals { Point, Comma };

// Reads rows of cells, one after the other out of a text that comes in pieces, so that a long one
// need never be held. Lines end with CR LF or LF; a byte order mark, a missing last line end and
// empty lines are passed over. A cell in quotes may hold separators, line ends and, doubled,
// quotes. Spreadsheets that write a decimal comma part their cells by semicolons: where the first
// line holds a semicolon outside quotes and no comma, that is the separator. A fault for a quote
// inside a cell without quotes, for text behind a closing quote, for quotes that are never closed,
// for a CR alone, for bytes that are not UTF-8 and for control characters. Reading goes on behind
// it, so that all are told at once. InputError, with its line, for a row of more bytes or cells
// than any table has: it may have no end, and all of it would be held.
class CsvReader {
 public:
  static constexpr std::size_t kMostBytesOfRow = std::size_t{4} << 20U;
  static constexpr std::size_t kMostCellsOfRow = 1000;

  // The next piece of the text, which stays until the one after it is asked for; empty at the end.
  using Pieces = std::function<std::string_view()>;

  explicit CsvReader(Pieces pieces);

  // The next row, which stays until the one after it is read; nothing behind the last.
  [[nodiscard]] const CsvRow* next();

  // What the separator tells, once a row was read.
  [[nodiscard]] Decimals decimals() const {
    return separator_ == ';' ? Decimals::Comma : Decimals::Point;
  }

  // What cannot be read of the row that was read last; empty where all could be.
  [[nodiscard]] const std::vector<CsvFault>& faults() const { return faults_; }

 private:
  void begin();
  bool has(std::size_t bytes);
  void add(std::string_view to_cell);
  [[noreturn]] void refuse_row(const std::string& too_much) const;
  void read_row();
  void read_cell();
  void read_quoted();
  bool take(char c);
  [[nodiscard]] bool at_line_end();
  bool take_line_end();
  void fault(std::string_view why);

  Pieces pieces_;
  std::string text_;       // what came in and is not read through
  std::string_view rest_;  // what of it is to be read
  bool has_begun_ = false;
  bool has_ended_ = false;  // no piece is left
  char separator_ = ',';
  std::size_t line_ = 1;
  CsvRow row_;
  std::size_t row_bytes_ = 0;  // in its cells
  std::vector<CsvFault> faults_;
};

// One row with its line end, CR LF; quotes only around cells that need them; the cells themselves
// are written as they are. A cell may hold anything and CsvReader gives the same cells back. One
// that a spreadsheet would take for a formula (it begins with = + - @, in full width too, with a
// tab or CR, and is no plain number) gets an apostrophe in front, as does one that begins with an
// apostrophe before such a beginning, so that CsvReader can take the apostrophe away again.
[[nodiscard]] std::string write_csv_row(const std::vector<std::string>& cells,
                                        Decimals decimals = Decimals::Point);

// A cell of numbers, such as "12.5 N·m", with the comma or the point between its digits.
[[nodiscard]] std::string with_decimal_comma(std::string cell);
[[nodiscard]] std::string with_decimal_point(std::string cell);

}  // namespace exchange
