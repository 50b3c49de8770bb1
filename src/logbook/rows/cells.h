#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <optional>
#include <string>

#include "failure/failure.h"
#include "fastener/condition.h"
#include "quantity/angle.h"
#include "quantity/length.h"
#include "quantity/percent.h"
#include "quantity/stated_torque.h"
#include "record/entry.h"
#include "record/running_amount.h"
#include "record/word.h"

namespace SQLite {
class Column;
class Statement;
}  // namespace SQLite

namespace logbook {

// The cells of a row, each held against what it may be. A file may have been altered or damaged,
// and the library would turn a text into 0 and a NULL into nothing: so each of these throws
// InputError, naming the column and the value ("position: -1; expected 1 to 10000"), where the cell
// is not of its type or beside its range.

// The columns of `entry` (as `e`) that make a stamp; they come first in every SELECT.
inline constexpr const char* kStampColumns =
    "e.line, e.id, e.kind, e.by_whom, e.done_at, e.entered_at, e.device";
inline constexpr int kFirstContentColumn = 7;

[[nodiscard]] record::Stamp stamp_of(SQLite::Statement& row);

// Binds the value of a cell that is copied, whatever its type.
void bind_as_it_is(SQLite::Statement& statement, int index, const SQLite::Column& value);

// SQLite::Exception (SQLITE_CORRUPT) where the row has no entry.
void refuse_if_of_no_line(SQLite::Statement& row);

// Number, id and kind of the row's entry, whatever they are.
[[nodiscard]] std::int64_t line_of(SQLite::Statement& row);
[[nodiscard]] std::string id_of(SQLite::Statement& row);
[[nodiscard]] std::string kind_of(SQLite::Statement& row);

// True where the row is of the entry with this id, without reading the whole stamp: entries of many
// rows are read a million rows at a time.
[[nodiscard]] bool is_of(SQLite::Statement& row, const std::string& id);

// True while the rows last.
[[nodiscard]] bool step(SQLite::Statement& row);

// Columns are counted from the first one after the stamp.
[[nodiscard]] bool is_null_at(SQLite::Statement& row, int column);

// UTF-8 without control characters; tabs and line ends, the blanks of a line that was typed, come
// as blanks.
[[nodiscard]] std::string text_at(SQLite::Statement& row, int column);
[[nodiscard]] std::string some_text_at(SQLite::Statement& row, int column);  // not empty
// A name or code: 1 to 32 bytes of letters, digits, hyphens and underscores.
[[nodiscard]] std::string code_at(SQLite::Statement& row, int column);
[[nodiscard]] std::string code_or_empty_at(SQLite::Statement& row, int column);

[[nodiscard]] double number_at(SQLite::Statement& row, int column);  // finite
[[nodiscard]] double positive_at(SQLite::Statement& row, int column);
[[nodiscard]] int integer_at(SQLite::Statement& row, int column, int least, int most);
[[nodiscard]] bool flag_at(SQLite::Statement& row, int column);     // 0 or 1
[[nodiscard]] int position_at(SQLite::Statement& row, int column);  // 1 to kMostPositions

[[nodiscard]] quantity::Percent percent_at(SQLite::Statement& row, int column);  // in (0, 100)
[[nodiscard]] quantity::Torque torque_at(SQLite::Statement& row, int column);    // N·m, above 0
[[nodiscard]] quantity::Length length_at(SQLite::Statement& row, int column);    // mm, above 0
[[nodiscard]] quantity::Angle angle_at(SQLite::Statement& row, int column);  // degrees, any sign

// A column in N·m that follows from others of its row: no command reads it, but whoever queries the
// file with SQL does, and two answers would be given where it says something else.
void check_follows(SQLite::Statement& row, int column, std::optional<quantity::Torque> from_others);

// Nothing where the cell is NULL.
template <class Value>
[[nodiscard]] std::optional<Value> if_any(Value (*read)(SQLite::Statement&, int),
                                          SQLite::Statement& row, int column) {
  if (is_null_at(row, column)) return std::nullopt;
  return read(row, column);
}

// Throw the InputError about this cell: "column: value; expected ..." and "column: why".
[[noreturn]] void refuse_cell(SQLite::Statement& row, int column, const std::string& expected);
[[noreturn]] void refuse_text(SQLite::Statement& row, int column, const std::string& why);

// Runs `read` on the cell's text; what that cannot read is told with the column's name.
template <class Read>
[[nodiscard]] auto read_at(SQLite::Statement& row, int column, const Read& read) {
  const auto text = text_at(row, column);
  try {
    return read(text);
  } catch (const failure::InputError& error) {
    refuse_text(row, column, error.what());
  }
}

// A word of a closed vocabulary.
template <class Value>
[[nodiscard]] Value word_at(SQLite::Statement& row, int column) {
  return read_at(row, column, record::read_word<Value>);
}
[[nodiscard]] quantity::TorqueUnit unit_at(SQLite::Statement& row, int column);
[[nodiscard]] fastener::Condition condition_at(SQLite::Statement& row, int column);

// A counter's reading as it is kept in text; nothing where that is empty.
[[nodiscard]] std::optional<record::RunningAmount> counter_at(SQLite::Statement& row, int column);

// And how they are kept.
[[nodiscard]] inline std::string text_of(quantity::TorqueUnit unit) {
  return std::string(quantity::name_of(unit));
}
[[nodiscard]] inline std::string text_of(fastener::Condition condition) {
  return std::string(fastener::name_of(condition));
}
[[nodiscard]] inline std::string text_of(const std::optional<record::RunningAmount>& counter) {
  return counter ? record::write_exact(*counter) : std::string();
}
template <class Value>
[[nodiscard]] std::string text_of(Value word) {
  return std::string(record::word_of(word));
}

}  // namespace logbook
