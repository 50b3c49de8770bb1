#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::FluidAmount fluid_of(SQLite::Statement& row) {
  return {some_text_at(row, 0), word_at<record::FluidMove>(row, 1),
          quantity::Volume::millilitres(positive_at(row, 2)), text_at(row, 3), text_at(row, 4)};
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::FluidAmount& fluid,
                 Rows<record::FluidAmount>) {
  auto& row = writer.into("fluid", R"(
      (entry_id, fluid, move, amount_ml, amount_typed, note)
      VALUES (:id, :fluid, :move, :amount, :typed, :note))");
  row.bind(":id", id);
  row.bind(":fluid", fluid.fluid);
  row.bind(":move", text_of(fluid.move));
  row.bind(":amount", fluid.amount.in_millilitres());
  row.bind(":typed", fluid.typed);
  row.bind(":note", fluid.note);
  row.exec();
}

std::vector<record::Entry<record::FluidAmount>> read_rows(SQLite::Database& database,
                                                          const RowFilter& filter,
                                                          Rows<record::FluidAmount>) {
  if (is_empty(database, "fluid")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.fluid, rows.move, rows.amount_ml, rows.amount_typed, rows.note
      FROM fluid rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("fluid")));
  filter.bind(row);
  return gathered<record::FluidAmount>(row, filter, fluid_of);
}

}  // namespace logbook
