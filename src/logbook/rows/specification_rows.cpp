#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

void bind(SQLite::Statement& row, const char* name, const std::optional<quantity::Torque>& torque) {
  if (torque) row.bind(name, torque->in_newton_metres());
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Specified& specified,
                 Rows<record::Specified>) {
  auto& row = writer.into("specification", R"(
      (entry_id, joint_code, text_typed, procedure, torque_nm, low_nm,
                                 high_nm, source, condition)
      VALUES (:id, :joint, :typed, :procedure, :torque, :low, :high, :source, :condition))");
  row.bind(":id", id);
  row.bind(":joint", specified.joint);
  row.bind(":typed", specified.typed);
  row.bind(":procedure", record::write_exact(specified.procedure));
  if (const auto target = record::final_torque(specified.procedure)) {
    // Only limits that the source gives are stored; an assumed tolerance is the reader's to apply.
    const auto window = record::window_of(*target, record::LogbookStart{}.default_tolerance);
    bind(row, ":torque", window.nominal);
    if (!window.assumed) {
      bind(row, ":low", window.low);
      bind(row, ":high", window.high);
    }
  }
  row.bind(":source", specified.source);
  row.bind(":condition", text_of(specified.condition));
  row.exec();
  insert_positions(writer, "specification_position", id, specified.positions);
}

std::vector<record::Entry<record::Specified>> read_rows(SQLite::Database& database,
                                                        const RowFilter& filter,
                                                        Rows<record::Specified>) {
  ChildRows positions(database, "specification_position", "position");
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.text_typed, rows.procedure, rows.source, rows.condition
      FROM specification rows CROSS JOIN entry e ON e.id = rows.entry_id
      {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Specified>(row, filter, [&](SQLite::Statement& each) {
    return record::Specified{
        code_at(each, 0), some_text_at(each, 1), read_at(each, 2, record::read_specification),
        text_at(each, 3), condition_at(each, 4), positions.positions_of(id_of(each))};
  });
}

}  // namespace logbook
