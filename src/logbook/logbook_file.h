#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "logbook/patience.h"
#include "logbook/waiting.h"

namespace SQLite {
class Database;
}

namespace logbook {

// The file on the disk, below any notion of entries.

// Opens an existing logbook for reading alone, or for writing. Checks that it is one, refuses a
// newer schema. An older one is brought up to date, for writing after copying the file beside
// itself, for reading in memory alone, so that reading changes no file. Every commit is on the disk
// when it returns (write-ahead log, synchronous=EXTRA). Links are followed to the file itself; one
// that has a second name (hard link) is read but not written to. Where another program holds it,
// `waiting` says how long to wait, from here on until it is closed. Throws LogbookError.
[[nodiscard]] std::unique_ptr<SQLite::Database> open_to_read(const std::string& path,
                                                             Waiting& waiting = Waiting::silent());
[[nodiscard]] std::unique_ptr<SQLite::Database> open_to_write(const std::string& path,
                                                              Waiting& waiting = Waiting::silent());

// Opens a logbook that is to stay byte for byte as it is; one of an older schema is brought up to
// date as a copy in memory. Throws LogbookError.
[[nodiscard]] std::unique_ptr<SQLite::Database> open_unchanged(
    const std::string& path, Waiting& waiting = Waiting::silent());

// Opens a logbook to try something on it: a copy in memory, brought up to date. The file is neither
// changed nor held. Throws LogbookError.
[[nodiscard]] std::unique_ptr<SQLite::Database> open_to_try(const std::string& path,
                                                            Waiting& waiting = Waiting::silent());

// Whether open_to_write would leave the file as it is: it may be written to, its schema is today's,
// and it keeps what is written in a write-ahead log.
[[nodiscard]] bool is_ready_to_write(const std::string& path, Waiting& waiting = Waiting::silent());

// Opens a logbook to look at all of it, whatever somebody put into its schema; nothing of it is
// changed and an older schema stays as it is. No query may name a view, and no line is written. A
// look that takes far more steps than a sound file of that size would is given up, as long as this
// is there. Throws LogbookError, or what the library throws.
struct ToVerify {
  std::unique_ptr<SQLite::Database> database;
  std::unique_ptr<Patience> patience;  // goes before the database does
};
[[nodiscard]] ToVerify open_to_verify(const std::string& path,
                                      Waiting& waiting = Waiting::silent());

// An open logbook of an earlier version as this one would have it, in memory: reading changes no
// file. Throws LogbookError, or what the library throws.
[[nodiscard]] std::unique_ptr<SQLite::Database> brought_up_to_date(SQLite::Database& earlier);

// Makes a new logbook in one go: the file is built under another name, `fill` writes the first line
// into it, and only then it gets its own name. LogbookError (Exists) where something stands there
// already; whatever goes wrong, nothing is left behind. Where a schema version is named, `fill`
// finds a logbook of that version, which is then brought up to date.
void create_file(const std::string& path, const std::function<void(SQLite::Database&)>& fill,
                 std::optional<int> version = std::nullopt);

}  // namespace logbook
