#include "logbook/set_aside.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace logbook {

SetAside::SetAside(SQLite::Database& database, std::initializer_list<const char*> triggers)
    : database_(database) {
  for (const char* name : triggers) {
    SQLite::Statement row(database_,
                          "SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = ?");
    row.bind(1, std::string(name));
    if (!row.executeStep()) continue;
    texts_.push_back(row.getColumn(0).getString());
    row.reset();
    database_.exec(fmt::format("DROP TRIGGER {}", name));
  }
}

void SetAside::put_back() {
  for (const auto& text : texts_) database_.exec(text);
}

}  // namespace logbook
