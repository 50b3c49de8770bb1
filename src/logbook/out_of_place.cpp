#include "logbook/out_of_place.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>

namespace logbook {
namespace {

using Lines = std::vector<record::UnreadableLine>;

void add(SQLite::Database& database, const char* which, const char* why, Lines& lines) {
  SQLite::Statement row(database, which);
  while (row.executeStep()) {
    lines.push_back({row.getColumn(0).getInt64(), row.getColumn(1).getString(),
                     row.getColumn(2).getString(), why});
    lines.back().out_of_place = true;
  }
}

}  // namespace

std::vector<record::UnreadableLine> lines_out_of_place(SQLite::Database& database) {
  static_assert(kFirstIdTooLate == "e677d21f");  // as the second query has it
  Lines lines;
  add(database, R"(
      SELECT e.line, e.id, e.kind FROM logbook_start s JOIN entry e ON e.id = s.entry_id
      WHERE e.id > (SELECT min(id) FROM entry))",
      "a first line that is not the first: it, or what stands before it, was put in", lines);
  add(database, "SELECT line, id, kind FROM entry WHERE id >= 'e677d21f'",
      "its id is of a year after 9999, which boltwitness never gives, and nothing could be written "
      "behind it",
      lines);
  std::ranges::stable_sort(lines, {}, &record::UnreadableLine::line);
  return lines;
}

}  // namespace logbook
