#include "logbook/second_indexes.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "logbook/logbook_error.h"

namespace logbook {
namespace {

constexpr std::string_view kStrikes = "strike";

// What the index has of one name, in the order of its ids: a row as the text of its cells.
std::vector<std::vector<std::string>> rows_by(SQLite::Statement& query, const std::string& name) {
  query.reset();
  query.bind(1, name);
  std::vector<std::vector<std::string>> rows;
  while (query.executeStep()) {
    auto& row = rows.emplace_back();
    for (int i = 0; i < query.getColumnCount(); ++i) {
      row.push_back(query.getColumn(i).getString());
    }
  }
  return rows;
}

}  // namespace

SecondIndexes::SecondIndexes(SQLite::Database& database, std::string path)
    : database_(database), path_(std::move(path)) {
  SQLite::Statement pair(database_, R"(
      SELECT first.tbl_name, first.name
      FROM sqlite_schema first JOIN sqlite_schema second ON second.name = first.name || '_again'
      WHERE first.type = 'index' AND second.type = 'index')");
  SQLite::Statement column(database_, "SELECT name FROM pragma_index_info(?) ORDER BY seqno");
  while (pair.executeStep()) {
    Pair known{pair.getColumn(0).getString(), pair.getColumn(1).getString(), {}};
    column.reset();
    column.bind(1, known.index);
    while (column.executeStep()) known.columns.push_back(column.getColumn(0).getString());
    pairs_.push_back(std::move(known));
  }
}

void SecondIndexes::check_joint(std::string_view code) const {
  for (const auto& pair : pairs_) {
    const bool is_about_it = pair.columns.front() == "joint_code" || pair.table == "joint";
    if (is_about_it) check(pair, std::string(code));
  }
}

void SecondIndexes::check_lines(std::string_view table, std::string_view name) const {
  for (const auto& pair : pairs_) {
    if (pair.table == table) check(pair, std::string(name));
  }
}

void SecondIndexes::check_strikes() const {
  for (const auto& pair : pairs_) {
    if (pair.table != kStrikes) continue;
    const auto all = [&](std::string_view tail) {
      return fmt::format("SELECT {0}, entry_id FROM {1} INDEXED BY {2}{3} ORDER BY {0}, entry_id",
                         fmt::join(pair.columns, ", "), pair.table, pair.index, tail);
    };
    SQLite::Statement first(database_, all(""));
    SQLite::Statement second(database_, all("_again"));
    for (bool more = true; more;) {
      more = first.executeStep();
      if (more != second.executeStep()) refuse(pair);
      for (int i = 0; more && i < first.getColumnCount(); ++i) {
        if (first.getColumn(i).getString() != second.getColumn(i).getString()) refuse(pair);
      }
    }
  }
}

void SecondIndexes::check(const Pair& pair, const std::string& name) const {
  const auto query = [&](std::string_view tail) {
    return fmt::format("SELECT entry_id, {} FROM {} INDEXED BY {}{} WHERE {} = ? ORDER BY entry_id",
                       fmt::join(pair.columns, ", "), pair.table, pair.index, tail,
                       pair.columns.front());
  };
  SQLite::Statement first(database_, query(""));
  SQLite::Statement second(database_, query("_again"));
  SQLite::Statement is_there(
      database_,
      fmt::format("SELECT 1 FROM entry JOIN {} ON entry_id = id WHERE id = ?", pair.table));
  const auto rows = rows_by(first, name);
  if (rows != rows_by(second, name)) refuse(pair);
  for (const auto& row : rows) {
    is_there.reset();
    is_there.bind(1, row.front());
    if (!is_there.executeStep()) refuse(pair);
  }
}

void SecondIndexes::refuse(const Pair& pair) const {
  throw LogbookError(LogbookError::Kind::Damaged,
                     fmt::format("{}: the file is damaged ({} and {}_again do not lead to the same "
                                 "lines); \"boltwitness verify\" tells more; go back to a copy",
                                 path_, pair.index, pair.index));
}

}  // namespace logbook
