#include "logbook/parts_of_lines.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>
#include <vector>

namespace logbook {

void for_each_part(SQLite::Database& database, bool struck_too,
                   const std::function<void()>* line_read,
                   const std::function<void(const RowFilter&)>& work) {
  constexpr int kLinesAtOnce = 5000;
  SQLite::Statement next(database,
                         "SELECT id FROM entry WHERE id >= ? ORDER BY id LIMIT 1 OFFSET ?");
  next.bind(2, kLinesAtOnce);
  std::string from;
  for (bool is_last = false; !is_last;) {
    next.bind(1, from);
    is_last = !next.executeStep();
    const auto until = is_last ? std::string() : next.getColumn(0).getString();
    next.reset();
    std::vector<record::UnreadableLine> unreadable;
    RowFilter part{.unreadable = unreadable,
                   .from_id = from,
                   .struck_too = struck_too,
                   .line_read = line_read};
    if (!is_last) part.until_id = until;
    work(part);
    from = until;
  }
}

}  // namespace logbook
