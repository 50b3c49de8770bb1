#include "logbook/unreadable_lines.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "logbook/every_kind.h"
#include "logbook/history_lines.h"
#include "logbook/out_of_place.h"
#include "logbook/parts_of_lines.h"

namespace logbook {
namespace {

using Unreadable = std::vector<record::UnreadableLine>;

// The first line counts whatever strikes it.
Unreadable unreadable_start(SQLite::Database& database) {
  Unreadable unreadable;
  const bool is_there =
      !read_start(database, {.unreadable = unreadable, .struck_too = true}).empty();
  if (!is_there && unreadable.empty()) {
    unreadable.push_back({1,
                          {},
                          std::string(record::Kinds::word_of<record::LogbookStart>()),
                          "the first line of the logbook is not there"});
  }
  return unreadable;
}

// Puts to what cannot be read the lines that pass the filter and are not known: rows of `entry`
// that none of the kinds has rows for, since they were lost or are of a kind that there is not.
void add_lines_without_rows(SQLite::Database& database, const RowFilter& filter,
                            const std::unordered_set<std::string_view>& known) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT e.line, e.id, e.kind
      FROM (SELECT id AS entry_id FROM entry) rows JOIN entry e ON e.id = rows.entry_id {})",
                                              filter.where("entry_id")));
  filter.bind(row);
  std::vector<record::UnreadableLine> without;
  while (row.executeStep()) {
    auto id = row.getColumn(1).getString();
    if (known.contains(id)) continue;
    without.push_back({row.getColumn(0).getInt64(), std::move(id), row.getColumn(2).getString(),
                       "its content is not there"});
  }
  std::ranges::move(without, std::back_inserter(filter.unreadable));
}

std::size_t lines_in(SQLite::Database& database, const RowFilter& part) {
  auto with_struck = part;
  with_struck.struck_too = true;
  SQLite::Statement row(
      database, fmt::format("SELECT count(*) FROM (SELECT id AS entry_id FROM entry) rows {}",
                            with_struck.where("entry_id")));
  with_struck.bind(row);
  row.executeStep();
  return static_cast<std::size_t>(row.getColumn(0).getInt64());
}

}  // namespace

LinesRead read_or_tell(SQLite::Database& database, const RowFilter& filter) {
  LinesRead read{read_every_line(database, filter), {}};
  auto strikes = filter;
  strikes.struck_too = true;
  read.strikes = read_rows(database, strikes, Rows<record::Strike>{});
  std::unordered_set<std::string_view> known;
  for (const auto& line : read.lines) known.insert(line.stamp.id);
  for (const auto& strike : read.strikes) known.insert(strike.stamp.id);
  for (const auto& line : filter.unreadable) known.insert(line.id);
  add_lines_without_rows(database, filter, known);
  record::each_once(filter.unreadable);
  mark_struck(database, filter.unreadable);
  return read;
}

std::vector<record::UnreadableLine> unreadable_lines(SQLite::Database& database,
                                                     const std::function<void()>& line_read) {
  auto all = unreadable_start(database);
  // Those that are struck or cannot be read no reader tells of, and one whose rows stand in several
  // tables each of them may.
  std::size_t told = 0;
  std::size_t lines = 0;
  const auto tell = [&](std::size_t upto) {
    for (; told < upto; ++told) line_read();
  };
  const std::function<void()> tell_one = [&] { tell(std::min(told + 1, lines)); };
  for_each_part(database, false, line_read ? &tell_one : nullptr, [&](const RowFilter& part) {
    if (line_read) lines += lines_in(database, part);
    (void)read_or_tell(database, part);
    if (line_read) tell(lines);
    std::ranges::move(part.unreadable, std::back_inserter(all));
  });
  std::ranges::move(lines_out_of_place(database), std::back_inserter(all));
  record::each_once(all);
  return all;
}

}  // namespace logbook
