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

// The columns in N·m. Only limits that the source gives are among them; an assumed tolerance is the
// reader's to apply.
struct InNewtonMetres {
  std::optional<quantity::Torque> torque = std::nullopt;
  std::optional<quantity::Torque> low = std::nullopt;
  std::optional<quantity::Torque> high = std::nullopt;
};

InNewtonMetres in_newton_metres(const record::Specification& procedure) {
  const auto target = record::final_torque(procedure);
  if (!target) return {};
  const auto window = record::window_of(*target, record::LogbookStart{}.default_tolerance);
  if (window.assumed) return {window.nominal};
  return {window.nominal, window.low, window.high};
}

record::Specified specified_without_positions(SQLite::Statement& row) {
  record::Specified specified{
      code_at(row, 0), some_text_at(row, 1), read_at(row, 2, record::read_specification),
      text_at(row, 3), condition_at(row, 4), {}};
  const auto derived = in_newton_metres(specified.procedure);
  check_follows(row, 5, derived.torque);
  check_follows(row, 6, derived.low);
  check_follows(row, 7, derived.high);
  return specified;
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
  const auto derived = in_newton_metres(specified.procedure);
  bind(row, ":torque", derived.torque);
  bind(row, ":low", derived.low);
  bind(row, ":high", derived.high);
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
      SELECT {}, rows.joint_code, rows.text_typed, rows.procedure, rows.source, rows.condition,
             rows.torque_nm, rows.low_nm, rows.high_nm
      FROM specification rows LEFT JOIN entry e ON e.id = rows.entry_id
      {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Specified>(row, filter, [&](SQLite::Statement& each) {
    auto specified = specified_without_positions(each);
    specified.positions = positions.positions_of(id_of(each));
    return specified;
  });
}

}  // namespace logbook
