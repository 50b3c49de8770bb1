#include "logbook/recording.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

#include "logbook/every_kind.h"
#include "logbook/guarded.h"
#include "logbook/lasting_commit.h"
#include "logbook/line_writer.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/photograph_bytes.h"
#include "logbook/position_total.h"
#include "logbook/soundness.h"

namespace logbook {
namespace {

// So many lines that reading them back costs little beside writing them, and takes little memory.
constexpr std::size_t kReadBackAtOnce = 1000;

// Reads the lines from this one on as every command will, before they are kept: what is written and
// cannot be read again would shut the whole logbook.
void check_readable(SQLite::Database& database, const LinesWritten& lines) {
  std::vector<record::UnreadableLine> unreadable;
  const RowFilter new_ones{.unreadable = unreadable, .from_id = lines.first_id, .struck_too = true};
  const auto read = count_readable(database, new_ones, lines.kinds);
  if (!unreadable.empty()) {
    throw failure::InputError(
        fmt::format("{}: this could not be read back from the logbook, so it "
                    "was not written; check the value",
                    unreadable.front().why));
  }
  if (read != lines.count) {
    throw failure::InputError(
        fmt::format("{} of {} lines could be read back from the logbook, so nothing was written",
                    read, lines.count));
  }
}

// In a damaged file a line may find nothing to hang on, or another in its place: what the library
// refuses then is of the file, and not of what was entered.
template <class Work>
auto recorded(SQLite::Database& database, const std::string& path, Work&& work) {
  return guarded_write(path, [&] {
    try {
      return std::forward<Work>(work)();
    } catch (const SQLite::Exception& error) {
      if (error.getErrorCode() == SQLITE_CONSTRAINT) check_structure(database, path);
      throw;
    }
  });
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
      LineWriter lines(database);
      stamp = lines.append(writer, first);
      check_readable(database, lines.take_written());
      transaction.commit();
    });
  });
  return stamp;
}

AlreadyWritten::AlreadyWritten(const Line& first, bool is_same)
    : Refusal(is_same ? fmt::format("this was recorded before, as line {}", first.line)
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
  transaction_ = recorded(*logbook_.database_, logbook_.path_, [&] {
    return std::make_unique<SQLite::Transaction>(*logbook_.database_,
                                                 SQLite::TransactionBehavior::IMMEDIATE);
  });
  check_not_written(logbook_, writer_);
  recorded(*logbook_.database_, logbook_.path_, [&] {
    logbook_.soundness_->check_places();
    logbook_.soundness_->check_ends();
  });
  lines_ = std::make_unique<LineWriter>(*logbook_.database_);
}

Recording::~Recording() = default;

record::Stamp Recording::append(const record::Content& content) {
  return append(content, writer_.by, writer_.done_at);
}

record::Stamp Recording::append(const record::Content& content, const std::string& by,
                                record::Moment done_at) {
  const Writer writer{by, writer_.device, done_at, writer_.now,
                      std::exchange(writer_.given, std::nullopt)};
  return recorded(*logbook_.database_, logbook_.path_, [&] {
    auto stamp = lines_->append(writer, content);
    has_joints_ = has_joints_ || std::holds_alternative<record::Joint>(content);
    const auto* strike = std::get_if<record::Strike>(&content);
    only_strikes_ = only_strikes_ && strike != nullptr;
    if (only_strikes_) struck_.push_back(strike->struck_id);
    if (lines_->written().count == kReadBackAtOnce) read_back();
    return stamp;
  });
}

record::Stamp Recording::append_now(const record::Content& content) {
  return append(content, writer_.by, writer_.now);
}

void Recording::keep_photograph(std::string_view bytes) {
  guarded_write(logbook_.path_, [&] { (void)keep_photograph_bytes(*logbook_.database_, bytes); });
}

void Recording::read_back() {
  if (lines_->written().count == 0) return;
  check_readable(*logbook_.database_, lines_->take_written());
}

void Recording::commit() {
  recorded(*logbook_.database_, logbook_.path_, [&] {
    read_back();
    if (has_joints_) check_position_total(*logbook_.database_);
    if (only_strikes_) {
      logbook_.soundness_->check_to_strike(struck_);
    } else {
      logbook_.soundness_->check_to_write();
    }
    commit_for_good(*logbook_.database_, *transaction_, logbook_.path_);
  });
}

}  // namespace logbook
