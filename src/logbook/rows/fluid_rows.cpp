#include "logbook/rows/fluid_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::FluidAmount& fluid) {
  SQLite::Statement row(database, R"(
      INSERT INTO fluid (entry_id, fluid, move, amount_ml, amount_typed, note)
      VALUES (:id, :fluid, :move, :amount, :typed, :note))");
  row.bind(":id", id);
  row.bind(":fluid", fluid.fluid);
  row.bind(":move", std::string(record::word_of(fluid.move)));
  row.bind(":amount", fluid.amount.in_millilitres());
  row.bind(":typed", fluid.typed);
  row.bind(":note", fluid.note);
  row.exec();
}

std::vector<record::Entry<record::FluidAmount>> read_fluids(SQLite::Database& database,
                                                            const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, f.fluid, f.move, f.amount_ml, f.amount_typed, f.note
      FROM fluid f JOIN {} e ON e.id = f.entry_id
      {} ORDER BY f.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("f.fluid")));
  filter.bind(row);
  std::vector<record::Entry<record::FluidAmount>> fluids;
  while (row.executeStep()) {
    fluids.push_back(
        {stamp_of(row),
         {text_at(row, 0), record::read_word<record::FluidMove>(text_at(row, 1)),
          quantity::Volume::millilitres(number_at(row, 2)), text_at(row, 3), text_at(row, 4)}});
  }
  return fluids;
}

}  // namespace logbook
