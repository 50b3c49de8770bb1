#include "logbook/rows/cells.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>
#include <cmath>

#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"

namespace logbook {
namespace {

SQLite::Column cell(SQLite::Statement& row, int column) {
  return row.getColumn(kFirstContentColumn + column);
}

[[noreturn]] void refuse(const SQLite::Column& cell, const std::string& expected) {
  const auto found = cell.isNull()   ? std::string("nothing")
                     : cell.isBlob() ? std::string("bytes that are no text")
                     : cell.isText() ? quantity::quoted(cell.getString())
                                     : cell.getString();
  throw failure::InputError(fmt::format("{}: {}; expected {}", cell.getName(), found, expected));
}

std::string text_in(const SQLite::Column& cell) {
  if (!cell.isText()) refuse(cell, "a text");
  constexpr int kLongest = 500'000;  // the layout of ten thousand measured points
  if (cell.getBytes() > kLongest) refuse(cell, fmt::format("at most {} bytes", kLongest));
  auto text = cell.getString();
  // Blanks of a line that was typed; a line end would make two lines of it wherever it is shown.
  std::ranges::replace_if(
      text, [](char c) { return c == '\t' || c == '\n' || c == '\r'; }, ' ');
  if (!record::is_one_line(text)) refuse(cell, "UTF-8 text without control characters");
  return text;
}

record::Moment moment_in(const SQLite::Column& cell) {
  const auto text = text_in(cell);
  try {
    return record::read_utc(text);
  } catch (const failure::InputError& error) {
    throw failure::InputError(fmt::format("{}: {}", cell.getName(), error.what()));
  }
}

}  // namespace

void bind_as_it_is(SQLite::Statement& statement, int index, const SQLite::Column& value) {
  if (value.isNull()) {
    statement.bind(index);
  } else if (value.isInteger()) {
    statement.bind(index, value.getInt64());
  } else if (value.isFloat()) {
    statement.bind(index, value.getDouble());
  } else if (value.isBlob()) {
    statement.bind(index, value.getBlob(), value.getBytes());
  } else {
    statement.bind(index, value.getString());
  }
}

void refuse_if_of_no_line(SQLite::Statement& row) {
  if (row.getColumn(1).isNull()) {
    throw SQLite::Exception("rows of a line that is not found", SQLITE_CORRUPT);
  }
}

record::Stamp stamp_of(SQLite::Statement& row) {
  return {id_of(row),
          line_of(row),
          text_in(row.getColumn(3)),
          moment_in(row.getColumn(4)),
          moment_in(row.getColumn(5)),
          text_in(row.getColumn(6))};
}

std::int64_t line_of(SQLite::Statement& row) { return row.getColumn(0).getInt64(); }
std::string id_of(SQLite::Statement& row) { return row.getColumn(1).getString(); }
std::string kind_of(SQLite::Statement& row) { return row.getColumn(2).getString(); }

bool is_of(SQLite::Statement& row, const std::string& id) {
  return id == row.getColumn(1).getText();
}

bool step(SQLite::Statement& row) { return row.executeStep(); }

bool is_null_at(SQLite::Statement& row, int column) {
  return row.isColumnNull(kFirstContentColumn + column);
}

void refuse_cell(SQLite::Statement& row, int column, const std::string& expected) {
  refuse(cell(row, column), expected);
}

void refuse_text(SQLite::Statement& row, int column, const std::string& why) {
  throw failure::InputError(fmt::format("{}: {}", cell(row, column).getName(), why));
}

std::string text_at(SQLite::Statement& row, int column) { return text_in(cell(row, column)); }

std::string some_text_at(SQLite::Statement& row, int column) {
  auto text = text_at(row, column);
  if (text.empty()) refuse_cell(row, column, "some text");
  return text;
}

std::string code_at(SQLite::Statement& row, int column) {
  auto code = code_or_empty_at(row, column);
  if (code.empty()) refuse_cell(row, column, "a code such as J06");
  return code;
}

std::string code_or_empty_at(SQLite::Statement& row, int column) {
  auto text = text_at(row, column);
  if (!text.empty() && !record::is_code(text)) refuse_cell(row, column, "a code such as J06");
  return text;
}

double number_at(SQLite::Statement& row, int column) {
  const auto number = cell(row, column);
  if (!number.isInteger() && !number.isFloat()) refuse(number, "a number");
  if (!std::isfinite(number.getDouble())) refuse(number, "a finite number");
  return number.getDouble();
}

double positive_at(SQLite::Statement& row, int column) {
  const double number = number_at(row, column);
  if (number <= 0.0) refuse_cell(row, column, "a number above 0");
  return number;
}

int integer_at(SQLite::Statement& row, int column, int least, int most) {
  const auto number = cell(row, column);
  if (!number.isInteger() || number.getInt64() < least || number.getInt64() > most) {
    refuse(number, fmt::format("{} to {}", least, most));
  }
  return number.getInt();
}

bool flag_at(SQLite::Statement& row, int column) { return integer_at(row, column, 0, 1) != 0; }

int position_at(SQLite::Statement& row, int column) {
  return integer_at(row, column, 1, record::kMostPositions);
}

quantity::Percent percent_at(SQLite::Statement& row, int column) {
  const double percent = positive_at(row, column);
  if (percent >= 100.0) refuse_cell(row, column, "above 0 and below 100");
  return quantity::Percent::of_hundred(percent);
}

quantity::Torque torque_at(SQLite::Statement& row, int column) {
  return quantity::Torque::newton_metres(positive_at(row, column));
}

void check_follows(SQLite::Statement& row, int column,
                   std::optional<quantity::Torque> from_others) {
  constexpr double kShare = 1e-9;  // after a way through other units and back
  if (!from_others) {
    if (!is_null_at(row, column)) refuse_cell(row, column, "nothing, by the rest of its line");
    return;
  }
  const double expected = from_others->in_newton_metres();
  const double found = number_at(row, column);
  if (std::fabs(found - expected) >
      kShare * std::max({1.0, std::fabs(found), std::fabs(expected)})) {
    refuse_cell(row, column, fmt::format("{}, by the rest of its line", expected));
  }
}

quantity::Length length_at(SQLite::Statement& row, int column) {
  return quantity::Length::millimetres(positive_at(row, column));
}

quantity::Angle angle_at(SQLite::Statement& row, int column) {
  return quantity::Angle::degrees(number_at(row, column));
}

quantity::TorqueUnit unit_at(SQLite::Statement& row, int column) {
  const auto unit = quantity::read_torque_unit(text_at(row, column));
  if (!unit) refuse_cell(row, column, "a unit of torque");
  return *unit;
}

fastener::Condition condition_at(SQLite::Statement& row, int column) {
  const auto condition = fastener::read_condition(text_at(row, column));
  if (!condition) refuse_cell(row, column, "a condition");
  return *condition;
}

std::optional<record::RunningAmount> counter_at(SQLite::Statement& row, int column) {
  if (text_at(row, column).empty()) return std::nullopt;
  return read_at(row, column, record::read_running_amount);
}

}  // namespace logbook
