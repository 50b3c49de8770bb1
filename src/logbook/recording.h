#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/entry_id.h"
#include "logbook/logbook.h"
#include "record/content.h"
#include "record/entry.h"

namespace SQLite {
class Transaction;
}

namespace logbook {

class LineWriter;

// Who writes, where and when; the same for all lines of one command.
struct Writer {
  std::string by;
  std::string device;
  record::Moment done_at;
  record::Moment now;
  // Chosen by whoever asks for it: the id of the first line that is written.
  std::optional<GivenId> given = std::nullopt;

  // InputError where the moment lies more than a minute ahead of this machine's clock: a line tells
  // what was done. Every door asks it of the time that was typed there.
  void check_is_past(record::Moment moment) const;
};

// Starts a new logbook with its first line and tells its stamp. LogbookError (Exists) where the
// file is there already, InputError where the line could not be read back; nothing is left behind
// when it fails.
record::Stamp start_logbook(const std::string& path, const record::LogbookStart& first,
                            const Writer& writer);

// What was asked for under an id that was given has been written before.
class AlreadyWritten : public failure::Refusal {
 public:
  AlreadyWritten(const Line& first, bool is_same);

  // The first line that was written for it, and whether the same was asked for then.
  [[nodiscard]] const Line& first() const { return first_; }
  [[nodiscard]] bool is_same() const { return is_same_; }

 private:
  Line first_;
  bool is_same_;
};

// AlreadyWritten where the writer gives an id that a line has: for deeds that look something up
// before they write, which may have changed by what was written then.
void check_not_written(const Logbook& logbook, const Writer& writer);

// Lines written together or not at all. The logbook is held against other writers from here on, so
// what is looked up in it meanwhile still holds when the lines are written; without commit() every
// line is undone. After commit() has returned, a power cut loses nothing.
class Recording {
 public:
  // AlreadyWritten where the writer gives an id that a line has.
  Recording(Logbook& logbook, Writer writer);
  ~Recording();
  Recording(const Recording&) = delete;
  Recording& operator=(const Recording&) = delete;

  // Writes one line and tells its stamp. InputError as commit.
  record::Stamp append(const record::Content& content);

  // The same for what somebody else did, or at another time than the rest.
  record::Stamp append(const record::Content& content, const std::string& by,
                       record::Moment done_at);

  // The same for what is done by writing it, such as striking a line, whenever the rest was done.
  record::Stamp append_now(const record::Content& content);

  // Keeps the bytes of a photograph, under their SHA-256. Before the line that shows it.
  void keep_photograph(std::string_view bytes);

  // Keeps what was appended, all of which was read back as every command will read it: now, or
  // where it is much a part at a time while it was appended. InputError where something of it could
  // not be read again: then nothing is written. LogbookError (Damaged) where the logbook does not
  // fit its hashes (soundness.h), but where all that is added strikes lines that do not.
  void commit();

 private:
  void read_back();

  Logbook& logbook_;
  Writer writer_;
  std::unique_ptr<SQLite::Transaction> transaction_;
  std::unique_ptr<LineWriter> lines_;
  bool has_joints_ = false;
  bool only_strikes_ = true;
  std::vector<std::string> struck_;  // while there are only strikes
};

}  // namespace logbook
