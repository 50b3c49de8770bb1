#pragma once

#include <cstddef>
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

struct CsvText {
  std::vector<CsvRow> rows;
  std::vector<CsvFault> faults;  // empty where all could be read
  Decimals decimals = Decimals::Point;
};

// Reads rows of cells. Lines end with CR LF or LF; a byte order mark, a missing last line end and
// empty lines are passed over. A cell in quotes may hold separators, line ends and, doubled,
// quotes. Spreadsheets that write a decimal comma part their cells by semicolons: where the first
// line holds a semicolon outside quotes and no comma, that is the separator. A fault for a quote
// inside a cell without quotes, for text behind a closing quote, for quotes that are never closed,
// for a CR alone, for bytes that are not UTF-8 and for control characters. Reading goes on behind
// it, so that all are told at once.
[[nodiscard]] CsvText read_csv(std::string_view text);

// One row with its line end, CR LF; quotes only around cells that need them; the cells themselves
// are written as they are. A cell may hold anything and read_csv gives the same cells back. One that a spreadsheet would take for a formula
// (it begins with = + - @, in full width too, with a tab or CR, and is no plain number) gets an
// apostrophe in front, as does one that begins with an apostrophe before such a beginning, so that
// read_csv can take the apostrophe away again.
[[nodiscard]] std::string write_csv_row(const std::vector<std::string>& cells,
                                        Decimals decimals = Decimals::Point);

// A cell of numbers, such as "12.5 N·m", with the comma or the point between its digits.
[[nodiscard]] std::string with_decimal_comma(std::string cell);
[[nodiscard]] std::string with_decimal_point(std::string cell);

}  // namespace exchange
