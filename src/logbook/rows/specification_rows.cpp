#include "logbook/rows/specification_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/child_rows.h"
#include "logbook/rows/word_columns.h"
#include "record/logbook_start.h"

namespace logbook {
namespace {

void bind(SQLite::Statement& row, const char* name, const std::optional<quantity::Torque>& torque) {
  if (torque) row.bind(name, torque->in_newton_metres());
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id, const record::Specified& specified) {
  SQLite::Statement row(database, R"(
      INSERT INTO specification (entry_id, joint_code, text_typed, procedure, torque_nm, low_nm,
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
  row.bind(":condition", condition_text(specified.condition));
  row.exec();
  insert_positions(database, "specification_position", id, specified.positions);
}

std::vector<record::Entry<record::Specified>> read_specifications(SQLite::Database& database,
                                                                  const RowFilter& filter) {
  auto positions = read_positions(database, "specification_position");
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, s.joint_code, s.text_typed, s.procedure, s.source, s.condition
      FROM specification s JOIN {} e ON e.id = s.entry_id
      {} ORDER BY s.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("s.joint_code")));
  filter.bind(row);
  std::vector<record::Entry<record::Specified>> specifications;
  while (row.executeStep()) {
    auto stamp = stamp_of(row);
    auto only_at = std::move(positions[stamp.id]);
    specifications.push_back(
        {std::move(stamp),
         {text_at(row, 0), text_at(row, 1), record::read_specification(text_at(row, 2)),
          text_at(row, 3), condition_from(text_at(row, 4)), std::move(only_at)}});
  }
  return specifications;
}

}  // namespace logbook
