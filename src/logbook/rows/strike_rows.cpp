#include "logbook/rows/strike_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

// Whether what a strike strikes can be struck.
std::string can_be_struck() {
  return fmt::format(R"(
      EXISTS (SELECT 1 FROM entry struck WHERE struck.id = rows.struck_id
              AND struck.id < rows.entry_id AND struck.kind NOT IN ('{}', '{}')))",
                     record::Kinds::word_of<record::Strike>(),
                     record::Kinds::word_of<record::LogbookStart>());
}

// The strikes that pass the condition, each with that.
std::string strikes_where(const std::string& condition) {
  return fmt::format(R"(
      SELECT {}, rows.struck_id, rows.reason, {}
      FROM strike rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                     kStampColumns, can_be_struck(), condition);
}

record::Strike strike_in(SQLite::Statement& row) {
  if (!flag_at(row, 2)) {
    throw failure::InputError(
        "struck_id: a strike, the first line, a line that came later or none; expected one that "
        "can "
        "be struck");
  }
  return {some_text_at(row, 0), some_text_at(row, 1)};
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Strike& strike,
                 Rows<record::Strike>) {
  auto& row = writer.into("strike", "(entry_id, struck_id, reason) VALUES (:id, :struck, :reason)");
  row.bind(":id", id);
  row.bind(":struck", strike.struck_id);
  row.bind(":reason", strike.reason);
  row.exec();
}

std::vector<record::Entry<record::Strike>> read_rows(SQLite::Database& database,
                                                     const RowFilter& filter,
                                                     Rows<record::Strike>) {
  if (is_empty(database, "strike")) return {};
  SQLite::Statement row(database, strikes_where(filter.where("struck_id")));
  filter.bind(row);
  return gathered<record::Strike>(row, filter, strike_in);
}

std::vector<record::UnreadableLine> strikes_of_nothing(SQLite::Database& database) {
  std::vector<record::UnreadableLine> refused;
  SQLite::Statement row(database, strikes_where("WHERE NOT " + can_be_struck()));
  (void)gathered<record::Strike>(row, {.unreadable = refused}, strike_in);
  return refused;
}

StrikesOfLine::StrikesOfLine(SQLite::Database& database)
    : row_(std::make_unique<SQLite::Statement>(database,
                                               strikes_where("WHERE rows.struck_id = :id"))) {}
StrikesOfLine::~StrikesOfLine() = default;

std::vector<record::Entry<record::Strike>> StrikesOfLine::of(
    const std::string& id, std::vector<record::UnreadableLine>& unreadable) {
  row_->reset();
  row_->bind(":id", id);
  return gathered<record::Strike>(*row_, {.unreadable = unreadable}, strike_in);
}

}  // namespace logbook
