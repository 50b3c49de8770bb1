#include "logbook/rows/disposition_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"

namespace logbook {
namespace {

void insert_parts(SQLite::Database& database, const std::string& id,
                  const std::vector<record::DecidedOn>& parts) {
  SQLite::Statement row(database, R"(
      INSERT INTO disposition_part (entry_id, deviation, position, evidence)
      VALUES (:id, :deviation, :position, :evidence))");
  for (const auto& part : parts) {
    row.bind(":id", id);
    row.bind(":deviation", part.deviation);
    if (part.position) row.bind(":position", *part.position);
    row.bind(":evidence", part.evidence);
    row.exec();
    row.reset();
    row.clearBindings();
  }
}

record::Disposition disposition_of(SQLite::Statement& row) {
  record::Disposition disposition;
  disposition.deviation = text_at(row, 0);
  disposition.rule = text_at(row, 1);
  disposition.joint = text_at(row, 2);
  if (!is_null_at(row, 3)) disposition.position = integer_at(row, 3);
  disposition.evidence = text_at(row, 4);
  disposition.judged_on = text_at(row, 5);
  disposition.decision = record::read_word<record::Decision>(text_at(row, 6));
  disposition.reason = text_at(row, 7);
  disposition.second_person = text_at(row, 8);
  if (!is_null_at(row, 9)) disposition.done = text_at(row, 9);
  return disposition;
}

record::DecidedOn part_of(SQLite::Statement& row) {
  record::DecidedOn part;
  part.deviation = text_at(row, 10);
  if (!is_null_at(row, 11)) part.position = integer_at(row, 11);
  part.evidence = text_at(row, 12);
  return part;
}

}  // namespace

void insert(SQLite::Database& database, const std::string& id,
            const record::Disposition& disposition) {
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
  row.bind(":decision", std::string(record::word_of(disposition.decision)));
  row.bind(":reason", disposition.reason);
  row.bind(":second_person", disposition.second_person);
  row.exec();
  insert_parts(database, id, disposition.parts);
  if (disposition.done.empty()) return;
  SQLite::Statement done(database,
                         "INSERT INTO disposition_done (entry_id, what) VALUES (:id, :what)");
  done.bind(":id", id);
  done.bind(":what", disposition.done);
  done.exec();
}

std::vector<record::Entry<record::Disposition>> read_dispositions(SQLite::Database& database,
                                                                  const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, d.deviation, d.rule, d.joint_code, d.position, d.evidence, d.judged_on, d.decision,
             d.reason, d.second_person, w.what, p.deviation, p.position, p.evidence
      FROM disposition d JOIN {} e ON e.id = d.entry_id
                         LEFT JOIN disposition_done w ON w.entry_id = d.entry_id
                         LEFT JOIN disposition_part p ON p.entry_id = d.entry_id
      {} ORDER BY d.entry_id, p.position, p.deviation)",
                                    kStampColumns, filter.entries(), filter.where("d.joint_code")));
  filter.bind(row);
  std::vector<record::Entry<record::Disposition>> dispositions;
  while (row.executeStep()) {
    if (dispositions.empty() || !is_of(row, dispositions.back().stamp)) {
      dispositions.push_back({stamp_of(row), disposition_of(row)});
    }
    if (!is_null_at(row, 10)) dispositions.back().content.parts.push_back(part_of(row));
  }
  return dispositions;
}

}  // namespace logbook
