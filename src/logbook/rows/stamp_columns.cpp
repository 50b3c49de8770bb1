#include "logbook/rows/stamp_columns.h"

#include <SQLiteCpp/SQLiteCpp.h>

namespace logbook {

record::Stamp stamp_of(SQLite::Statement& row) {
  return {row.getColumn(1).getString(),
          row.getColumn(0).getInt64(),
          row.getColumn(2).getString(),
          record::read_moment(row.getColumn(3).getString()),
          record::read_moment(row.getColumn(4).getString()),
          row.getColumn(5).getString()};
}

bool is_of(SQLite::Statement& row, const record::Stamp& stamp) {
  return stamp.id == row.getColumn(1).getText();
}

std::string text_at(SQLite::Statement& row, int column) {
  return row.getColumn(kFirstContentColumn + column).getString();
}

double number_at(SQLite::Statement& row, int column) {
  return row.getColumn(kFirstContentColumn + column).getDouble();
}

int integer_at(SQLite::Statement& row, int column) {
  return row.getColumn(kFirstContentColumn + column).getInt();
}

bool is_null_at(SQLite::Statement& row, int column) {
  return row.isColumnNull(kFirstContentColumn + column);
}

}  // namespace logbook
