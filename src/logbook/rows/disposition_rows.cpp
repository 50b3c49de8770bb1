#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"

namespace logbook {
namespace {

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
  return disposition;
}

}  // namespace

void insert_rows(SQLite::Database& database, const std::string& id,
                 const record::Disposition& disposition, Rows<record::Disposition>) {
  SQLite::Statement row(database, R"(
      INSERT INTO disposition (entry_id, deviation, rule, joint_code, position, evidence, judged_on,
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
}

std::vector<record::Entry<record::Disposition>> read_rows(SQLite::Database& database,
                                                          const RowFilter& filter,
                                                          Rows<record::Disposition>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.deviation, rows.rule, rows.joint_code, rows.position, rows.evidence,
             rows.judged_on, rows.decision, rows.reason, rows.second_person
      FROM disposition rows CROSS JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Disposition>(row, filter, disposition_of);
}

}  // namespace logbook
