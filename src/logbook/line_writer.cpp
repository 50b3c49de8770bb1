#include "logbook/line_writer.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <utility>

#include "logbook/entry_id.h"
#include "logbook/every_kind.h"
#include "logbook/logbook_error.h"
#include "logbook/recording.h"

namespace logbook {
namespace {

// A number that leaves room for every line that anybody will write.
std::int64_t number_after(std::int64_t last_line) {
  constexpr std::int64_t kMostLines = 1'000'000'000'000;
  if (last_line >= 0 && last_line < kMostLines) return last_line + 1;
  throw LogbookError(LogbookError::Kind::Damaged,
                     fmt::format("the last line of this logbook has the number {}, which "
                                 "boltwitness never gave; go back to a copy",
                                 last_line));
}

}  // namespace

LineWriter::LineWriter(SQLite::Database& database)
    : database_(database), chain_(database), rows_(database) {}
LineWriter::~LineWriter() = default;

void LineWriter::find_last() {
  if (is_last_known_) return;
  // Two sub-selects, so that each maximum comes straight from its index.
  SQLite::Statement last(database_, R"(
      SELECT coalesce((SELECT max(id) FROM entry), ''),
             coalesce((SELECT max(line) FROM entry), 0))");
  last.executeStep();
  last_id_ = last.getColumn(0).getString();
  last_line_ = last.getColumn(1).getInt64();
  is_last_known_ = true;
}

record::Stamp LineWriter::append(const Writer& writer, const record::Content& content) {
  find_last();
  record::Stamp stamp{writer.given ? entry_id_with(writer.now, last_id_, *writer.given)
                                   : next_entry_id(writer.now, last_id_),
                      number_after(last_line_),
                      writer.by,
                      writer.done_at,
                      writer.now,
                      writer.device};
  chain_.open(stamp.id);
  if (!entry_) {
    entry_ = std::make_unique<SQLite::Statement>(database_, R"(
        INSERT INTO entry (line, id, kind, by_whom, done_at, entered_at, device)
        VALUES (:line, :id, :kind, :by, :done_at, :entered_at, :device))");
  }
  entry_->reset();
  entry_->bind(":line", stamp.line);
  entry_->bind(":id", stamp.id);
  entry_->bind(":kind", kind_of(content));
  entry_->bind(":by", stamp.by);
  entry_->bind(":done_at", record::write_utc(stamp.done_at));
  entry_->bind(":entered_at", record::write_utc(stamp.entered_at));
  entry_->bind(":device", stamp.device);
  entry_->exec();
  insert_content(rows_, stamp.id, content);
  chain_.close(stamp.id, stamp.device, rows_.take_tables());
  last_id_ = stamp.id;
  last_line_ = stamp.line;
  if (written_.count++ == 0) written_.first_id = stamp.id;
  written_.kinds.insert(content.index());
  return stamp;
}

LinesWritten LineWriter::take_written() { return std::exchange(written_, {}); }

}  // namespace logbook
