#include "logbook/recording.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/entry_id.h"
#include "logbook/guarded.h"
#include "logbook/logbook_file.h"
#include "logbook/rows/disposition_rows.h"
#include "logbook/rows/finding_rows.h"
#include "logbook/rows/fluid_rows.h"
#include "logbook/rows/hold_point_rows.h"
#include "logbook/rows/item_rows.h"
#include "logbook/rows/joint_rows.h"
#include "logbook/rows/pull_rows.h"
#include "logbook/rows/recheck_rows.h"
#include "logbook/rows/removal_rows.h"
#include "logbook/rows/renewal_rows.h"
#include "logbook/rows/specification_rows.h"
#include "logbook/rows/start_rows.h"
#include "logbook/rows/strike_rows.h"
#include "logbook/rows/stripe_rows.h"
#include "logbook/rows/tightening_rows.h"
#include "logbook/rows/wrench_rows.h"

namespace logbook {
namespace {

struct KindOf {
  const char* operator()(const record::LogbookStart&) const { return "start"; }
  const char* operator()(const record::Wrench&) const { return "wrench"; }
  const char* operator()(const record::Joint&) const { return "joint"; }
  const char* operator()(const record::Specified&) const { return "specification"; }
  const char* operator()(const record::Removal&) const { return "removal"; }
  const char* operator()(const record::Measured&) const { return "finding"; }
  const char* operator()(const record::Pull&) const { return "pull"; }
  const char* operator()(const record::FluidAmount&) const { return "fluid"; }
  const char* operator()(const record::CountedItem&) const { return "item"; }
  const char* operator()(const record::ItemReturn&) const { return "item return"; }
  const char* operator()(const record::HoldPoint&) const { return "hold point"; }
  const char* operator()(const record::HoldPointStep&) const { return "hold point step"; }
  const char* operator()(const record::Renewal&) const { return "renewal"; }
  const char* operator()(const record::Tightening&) const { return "tightening"; }
  const char* operator()(const record::FinalStripe&) const { return "stripe"; }
  const char* operator()(const record::Recheck&) const { return "recheck"; }
  const char* operator()(const record::Disposition&) const { return "disposition"; }
  const char* operator()(const record::Strike&) const { return "strike"; }
};

record::Stamp append_to(SQLite::Database& database, const Writer& writer,
                        const record::Content& content) {
  // Two sub-selects, so that each maximum comes straight from its index.
  SQLite::Statement last(database, R"(
      SELECT coalesce((SELECT max(id) FROM entry), ''),
             coalesce((SELECT max(line) FROM entry), 0))");
  last.executeStep();
  record::Stamp stamp{next_entry_id(writer.now, last.getColumn(0).getString()),
                      last.getColumn(1).getInt64() + 1,
                      writer.by,
                      writer.done_at,
                      writer.now,
                      writer.device};
  SQLite::Statement row(database, R"(
      INSERT INTO entry (line, id, kind, by_whom, done_at, entered_at, device)
      VALUES (:line, :id, :kind, :by, :done_at, :entered_at, :device))");
  row.bind(":line", stamp.line);
  row.bind(":id", stamp.id);
  row.bind(":kind", kind_of(content));
  row.bind(":by", stamp.by);
  row.bind(":done_at", record::write_utc(stamp.done_at));
  row.bind(":entered_at", record::write_utc(stamp.entered_at));
  row.bind(":device", stamp.device);
  row.exec();
  std::visit([&](const auto& kind) { insert(database, stamp.id, kind); }, content);
  return stamp;
}

}  // namespace

std::string kind_of(const record::Content& content) { return std::visit(KindOf{}, content); }

record::Stamp start_logbook(const std::string& path, const record::LogbookStart& first,
                            const Writer& writer) {
  record::Stamp stamp;
  create_file(path, [&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    stamp = append_to(database, writer, first);
    transaction.commit();
  });
  return stamp;
}

Recording::Recording(Logbook& logbook, Writer writer)
    : logbook_(logbook), writer_(std::move(writer)) {
  transaction_ = guarded(logbook_.path_, [&] {
    return std::make_unique<SQLite::Transaction>(*logbook_.database_,
                                                 SQLite::TransactionBehavior::IMMEDIATE);
  });
}

Recording::~Recording() = default;

record::Stamp Recording::append(const record::Content& content) {
  return guarded(logbook_.path_, [&] { return append_to(*logbook_.database_, writer_, content); });
}

record::Stamp Recording::append(const record::Content& content, const std::string& by,
                                record::Moment done_at) {
  const Writer writer{by, writer_.device, done_at, writer_.now};
  return guarded(logbook_.path_, [&] { return append_to(*logbook_.database_, writer, content); });
}

void Recording::commit() {
  guarded(logbook_.path_, [&] { transaction_->commit(); });
}

}  // namespace logbook
