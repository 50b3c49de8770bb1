#include "logbook/derived_columns.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "failure/failure.h"
#include "logbook/every_kind.h"
#include "logbook/rows/row_writer.h"
#include "logbook/schema.h"

namespace logbook {
namespace {

struct DerivedColumn {
  const char* table;
  const char* column;
  const char* order;  // of the rows of one line
};
constexpr DerivedColumn kDerived[] = {
    {"finding", "prevailing_nm", "entry_id"},   {"setting_reading", "applied_nm", "entry_id, pull"},
    {"specification", "torque_nm", "entry_id"}, {"specification", "low_nm", "entry_id"},
    {"specification", "high_nm", "entry_id"},   {"tightening", "applied_nm", "entry_id"},
    {"wrench", "scale_low_nm", "entry_id"},     {"wrench", "scale_high_nm", "entry_id"}};

// The same lines as this program writes them, without what guards a file that is kept.
void write_again(SQLite::Database& database, const std::vector<record::HistoryLine>& lines) {
  make_tables(database, schema_steps().back().version);
  std::vector<std::string> triggers;
  {
    SQLite::Statement row(database, "SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    while (row.executeStep()) triggers.push_back(row.getColumn(0).getString());
  }
  for (const auto& trigger : triggers) database.exec("DROP TRIGGER " + trigger);
  RowWriter writer(database);
  for (const auto& line : lines) insert_content(writer, line.stamp.id, line.content);
}

// Of the lines from the first to the last of these.
SQLite::Statement values_of(SQLite::Database& database, const DerivedColumn& derived,
                            const std::vector<record::HistoryLine>& lines) {
  SQLite::Statement row(database,
                        fmt::format("SELECT entry_id, {} FROM {} WHERE entry_id BETWEEN :first AND "
                                    ":last ORDER BY {}",
                                    derived.column, derived.table, derived.order));
  row.bind(":first", lines.front().stamp.id);
  row.bind(":last", lines.back().stamp.id);
  return row;
}

bool is_same(const SQLite::Column& a, const SQLite::Column& b) {
  constexpr double kShare = 1e-9;  // after a way through other units and back
  if (a.isNull() || b.isNull()) return a.isNull() && b.isNull();
  const double first = a.getDouble();
  const double second = b.getDouble();
  return std::fabs(first - second) <= kShare * std::max({1.0, std::fabs(first), std::fabs(second)});
}

void check(SQLite::Database& database, SQLite::Database& again, const DerivedColumn& derived,
           const std::vector<record::HistoryLine>& lines) {
  auto there = values_of(database, derived, lines);
  auto expected = values_of(again, derived, lines);
  while (there.executeStep()) {
    const auto id = there.getColumn(0).getString();
    // Lines of which nothing is expected hold rows of another kind; that is told elsewhere.
    if (!expected.executeStep() || expected.getColumn(0).getString() != id) return;
    if (is_same(there.getColumn(1), expected.getColumn(1))) continue;
    SQLite::Statement line(database, "SELECT line FROM entry WHERE id = ?");
    line.bind(1, id);
    line.executeStep();
    throw failure::InputError(fmt::format(
        "line {}: {} of {} is {}, which does not follow from the rest of the line; expected {}",
        line.getColumn(0).getInt64(), derived.column, derived.table,
        there.getColumn(1).isNull() ? "nothing" : there.getColumn(1).getString(),
        expected.getColumn(1).isNull() ? "nothing" : expected.getColumn(1).getString()));
  }
}

}  // namespace

void check_derived_columns(SQLite::Database& database,
                           const std::vector<record::HistoryLine>& lines) {
  if (lines.empty()) return;
  SQLite::Database again(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  write_again(again, lines);
  for (const auto& derived : kDerived) check(database, again, derived, lines);
}

}  // namespace logbook
