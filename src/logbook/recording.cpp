#include "logbook/recording.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/entry_id.h"
#include "logbook/every_kind.h"
#include "logbook/guarded.h"
#include "logbook/hash_chain.h"
#include "logbook/lasting_commit.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/photograph_bytes.h"
#include "logbook/soundness.h"

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

record::Stamp append_to(SQLite::Database& database, HashChain& chain, const Writer& writer,
                        const record::Content& content) {
  // Two sub-selects, so that each maximum comes straight from its index.
  SQLite::Statement last(database, R"(
      SELECT coalesce((SELECT max(id) FROM entry), ''),
             coalesce((SELECT max(line) FROM entry), 0))");
  last.executeStep();
  const auto last_id = last.getColumn(0).getString();
  record::Stamp stamp{writer.given ? entry_id_with(writer.now, last_id, *writer.given)
                                   : next_entry_id(writer.now, last_id),
                      number_after(last.getColumn(1).getInt64()),
                      writer.by,
                      writer.done_at,
                      writer.now,
                      writer.device};
  chain.open(stamp.id);
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
  insert_content(database, stamp.id, content);
  chain.close(stamp.id, stamp.device);
  return stamp;
}

// Reads the lines from this one on as every command will, before they are kept: what is written and
// cannot be read again would shut the whole logbook.
void check_readable(SQLite::Database& database, const std::string& first_id, std::size_t written) {
  std::vector<record::UnreadableLine> unreadable;
  const RowFilter new_ones{.unreadable = unreadable, .from_id = first_id, .struck_too = true};
  const auto read = read_every_line(database, new_ones).size() +
                    read_rows(database, new_ones, Rows<record::Strike>{}).size();
  if (!unreadable.empty()) {
    throw failure::InputError(
        fmt::format("{}: this could not be read back from the logbook, so it "
                    "was not written; check the value",
                    unreadable.front().why));
  }
  if (read != written) {
    throw failure::InputError(
        fmt::format("{} of {} lines could be read back from the logbook, so nothing was written",
                    read, written));
  }
}

}  // namespace

void Writer::check_is_past(record::Moment moment) const {
  if (moment <= now + std::chrono::minutes(1)) return;
  throw failure::InputError(fmt::format(
      "{} lies ahead of this machine's clock ({}); a line tells what was done: expected "
      "the time when it was, or put the clock right",
      record::write_local(moment), record::write_local(now)));
}

record::Stamp start_logbook(const std::string& path, const record::LogbookStart& first,
                            const Writer& writer) {
  record::Stamp stamp;
  create_file(path, [&](SQLite::Database& database) {
    guarded_write(path, [&] {
      SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
      HashChain chain(database);
      stamp = append_to(database, chain, writer, first);
      check_readable(database, stamp.id, 1);
      transaction.commit();
    });
  });
  return stamp;
}

AlreadyWritten::AlreadyWritten(const Line& first, bool is_same)
    : Refusal(is_same
                  ? fmt::format("this was recorded before, as line {}", first.line)
                  : fmt::format("something else was recorded under this id before, as line {}; "
                                "nothing was written",
                                first.line)),
      first_(first),
      is_same_(is_same) {}

void check_not_written(const Logbook& logbook, const Writer& writer) {
  if (!writer.given) return;
  const auto before = logbook.line_given(writer.given->tail);
  if (!before) return;
  throw AlreadyWritten(*before, given_in(before->id).check == writer.given->check);
}

Recording::Recording(Logbook& logbook, Writer writer)
    : logbook_(logbook), writer_(std::move(writer)) {
  transaction_ = guarded_write(logbook_.path_, [&] {
    return std::make_unique<SQLite::Transaction>(*logbook_.database_,
                                                 SQLite::TransactionBehavior::IMMEDIATE);
  });
  check_not_written(logbook_, writer_);
  chain_ = std::make_unique<HashChain>(*logbook_.database_);
}

Recording::~Recording() = default;

record::Stamp Recording::append(const record::Content& content) {
  return append(content, writer_.by, writer_.done_at);
}

record::Stamp Recording::append(const record::Content& content, const std::string& by,
                                record::Moment done_at) {
  const Writer writer{by, writer_.device, done_at, writer_.now,
                      written_ == 0 ? writer_.given : std::nullopt};
  return guarded_write(logbook_.path_, [&] {
    auto stamp = append_to(*logbook_.database_, *chain_, writer, content);
    if (written_++ == 0) first_id_ = stamp.id;
    only_strikes_ = only_strikes_ && std::holds_alternative<record::Strike>(content);
    return stamp;
  });
}

record::Stamp Recording::append_now(const record::Content& content) {
  return append(content, writer_.by, writer_.now);
}

void Recording::keep_photograph(std::string_view bytes) {
  guarded_write(logbook_.path_,
                [&] { (void)keep_photograph_bytes(*logbook_.database_, bytes); });
}

void Recording::commit() {
  guarded_write(logbook_.path_, [&] {
    if (written_ > 0) check_readable(*logbook_.database_, first_id_, written_);
    // A strike is how a line that does not fit is taken out of what counts.
    if (!only_strikes_) logbook_.soundness_->check_to_write();
    commit_for_good(*logbook_.database_, *transaction_, logbook_.path_);
  });
}

}  // namespace logbook
