#include "logbook/strike_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Strike& strike) {
  SQLite::Statement row(
      database, "INSERT INTO strike (entry_id, struck_id, reason) VALUES (:id, :struck, :reason)");
  row.bind(":id", id);
  row.bind(":struck", strike.struck_id);
  row.bind(":reason", strike.reason);
  row.exec();
}

}  // namespace logbook
