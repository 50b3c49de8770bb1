#include "logbook/position_total.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "record/most_positions.h"

namespace logbook {

void check_position_total(SQLite::Database& database) {
  SQLite::Statement total(database, R"(
      SELECT total(count) FROM
        (SELECT count, max(entry_id) FROM joint
         WHERE entry_id NOT IN (SELECT struck_id FROM strike) GROUP BY code))");
  total.executeStep();
  record::check_position_total(total.getColumn(0).getDouble());
}

}  // namespace logbook
