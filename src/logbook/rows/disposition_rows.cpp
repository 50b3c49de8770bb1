#include "logbook/rows/disposition_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"

namespace logbook {

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
}

std::vector<record::Entry<record::Disposition>> read_dispositions(SQLite::Database& database,
                                                                  const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, d.deviation, d.rule, d.joint_code, d.position, d.evidence, d.judged_on, d.decision,
             d.reason, d.second_person
      FROM disposition d JOIN {} e ON e.id = d.entry_id {} ORDER BY d.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("d.joint_code")));
  filter.bind(row);
  std::vector<record::Entry<record::Disposition>> dispositions;
  while (row.executeStep()) {
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
    dispositions.push_back({stamp_of(row), std::move(disposition)});
  }
  return dispositions;
}

}  // namespace logbook
