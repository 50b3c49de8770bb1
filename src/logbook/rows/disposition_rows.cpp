#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

void insert_parts(RowWriter& writer, const std::string& id,
                  const std::vector<record::DecidedOn>& parts) {
  for (const auto& part : parts) {
    auto& row = writer.into("disposition_part", R"(
        (entry_id, deviation, position, evidence)
        VALUES (:id, :deviation, :position, :evidence))");
    row.bind(":id", id);
    row.bind(":deviation", part.deviation);
    if (part.position) row.bind(":position", *part.position);
    row.bind(":evidence", part.evidence);
    row.exec();
  }
}

record::Disposition disposition_of(SQLite::Statement& row) {
  record::Disposition disposition;
  disposition.deviation = some_text_at(row, 0);
  disposition.rule = text_at(row, 1);
  disposition.joint = code_or_empty_at(row, 2);
  disposition.position = if_any(position_at, row, 3);
  disposition.evidence = some_text_at(row, 4);
  disposition.judged_on = text_at(row, 5);
  disposition.decision = word_at<record::Decision>(row, 6);
  disposition.reason = some_text_at(row, 7);
  disposition.second_person = text_at(row, 8);
  if (!is_null_at(row, 9)) disposition.done = some_text_at(row, 9);
  return disposition;
}

record::DecidedOn part_of(SQLite::Statement& row) {
  record::DecidedOn part;
  part.deviation = some_text_at(row, 10);
  part.position = if_any(position_at, row, 11);
  part.evidence = some_text_at(row, 12);
  return part;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Disposition& disposition,
                 Rows<record::Disposition>) {
  auto& row = writer.into("disposition", R"(
      (entry_id, deviation, rule, joint_code, position, evidence, judged_on,
                               decision, reason, second_person)
      VALUES (:id, :deviation, :rule, :joint, :position, :evidence, :judged_on, :decision, :reason,
              :second_person))");
  row.bind(":id", id);
  row.bind(":deviation", disposition.deviation);
  row.bind(":rule", disposition.rule);
  row.bind(":joint", disposition.joint);
  if (disposition.position) row.bind(":position", *disposition.position);
  row.bind(":evidence", disposition.evidence);
  row.bind(":judged_on", disposition.judged_on);
  row.bind(":decision", text_of(disposition.decision));
  row.bind(":reason", disposition.reason);
  row.bind(":second_person", disposition.second_person);
  row.exec();
  insert_parts(writer, id, disposition.parts);
  if (disposition.done.empty()) return;
  auto& done = writer.into("disposition_done", "(entry_id, what) VALUES (:id, :what)");
  done.bind(":id", id);
  done.bind(":what", disposition.done);
  done.exec();
}

std::vector<record::Entry<record::Disposition>> read_rows(SQLite::Database& database,
                                                          const RowFilter& filter,
                                                          Rows<record::Disposition>) {
  if (is_empty(database, "disposition")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.deviation, rows.rule, rows.joint_code, rows.position, rows.evidence,
             rows.judged_on, rows.decision, rows.reason, rows.second_person, w.what, p.deviation,
             p.position, p.evidence
      FROM disposition rows LEFT JOIN entry e ON e.id = rows.entry_id
                            LEFT JOIN disposition_done w ON w.entry_id = rows.entry_id
                            LEFT JOIN disposition_part p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position, p.deviation)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Disposition>(
      row, filter, disposition_of, [](record::Disposition& disposition, SQLite::Statement& each) {
        if (!is_null_at(each, 10)) disposition.parts.push_back(part_of(each));
      });
}

}  // namespace logbook
