#include "logbook/leftover_log.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <system_error>
#include <utility>

#include "logbook/connection.h"
#include "logbook/containment.h"
#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "logbook/plain_file.h"
#include "logbook/schema.h"
#include "logbook/verification.h"
#include "logbook/waiting.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

// A log holds lines only behind its own header.
bool has_log(const std::string& file) {
  constexpr std::uintmax_t kHeaderBytes = 32;
  std::error_code missing;
  const auto size = fs::file_size(file + "-wal", missing);
  return !missing && size > kHeaderBytes;
}

// Sound as a logbook, whoever signed it and whether its lines have hashes yet or not.
bool is_sound(SQLite::Database& database) {
  try {
    if (database.execAndGet("PRAGMA application_id").getInt() != kApplicationId) return false;
    if (schema_version(database) > schema_steps().back().version) return false;
    const SQLite::Transaction moment(database);
    return verify_open(database, Look::AtHashes).is_as_written();
  } catch (const SQLite::Exception& error) {
    if (is_trouble_with_the_disk(error)) throw;
    return false;
  } catch (const LogbookError&) {
    return false;
  }
}

// The file with what the log adds to it. Whoever else had it open would keep us from holding it
// alone: nothing then, for the log is at work. What cannot be written is looked at all the same.
std::unique_ptr<SQLite::Database> with_log(const std::string& file) {
  const bool writable = ::access(file.c_str(), W_OK) == 0;
  auto whole = writable ? connect(file, SQLite::OPEN_READWRITE, Waiting::not_at_all())
                        : connect_making_nothing(file, Waiting::not_at_all());
  // Closing it plays nothing into the file.
  sqlite3_db_config(whole->getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  if (writable) whole->exec("PRAGMA locking_mode = EXCLUSIVE");
  try {
    (void)schema_version(*whole);
  } catch (const SQLite::Exception& error) {
    const int code = error.getErrorCode();
    if (code == SQLITE_NOTADB || code == SQLITE_CORRUPT) return whole;
    return nullptr;
  }
  return whole;
}

// Whether another program has begun to write, as the library itself asks before it plays a journal
// back.
bool is_being_written(SQLite::Database& database) {
  sqlite3_file* file = nullptr;
  int is_reserved = 0;
  return sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_FILE_POINTER, &file) ==
             SQLITE_OK &&
         file != nullptr && file->pMethods != nullptr &&
         file->pMethods->xCheckReservedLock(file, &is_reserved) == SQLITE_OK && is_reserved != 0;
}

// The file with its journal played back, in a draft beside it.
std::unique_ptr<SQLite::Database> played_back(const std::string& file, const DraftFile& draft) {
  const auto over = fs::copy_options::overwrite_existing;
  fs::copy_file(file, draft.path(), over);
  fs::copy_file(file + "-journal", draft.path().string() + "-journal", over);
  return connect(draft.path().string(), SQLite::OPEN_READWRITE, Waiting::not_at_all());
}

// Whether all that the one has and the other has not was written by one command: a command that was
// killed before it was done is what a journal is there to take back.
bool differ_by_one_command(SQLite::Database& more, SQLite::Database& less) {
  SQLite::Statement known(less, "SELECT 1 FROM entry WHERE id = ?");
  SQLite::Statement row(more, "SELECT id, entered_at || device FROM entry");
  std::string command;
  while (row.executeStep()) {
    known.reset();
    known.bind(1, row.getColumn(0).getString());
    if (known.executeStep()) continue;
    auto by = row.getColumn(1).getString();
    if (!command.empty() && by != command) return false;
    command = std::move(by);
  }
  return true;
}

// What either would do to a sound file; nothing where it belongs to it.
std::optional<std::string> harm_of(SQLite::Database& alone, SQLite::Database& whole,
                                   bool takes_back) {
  if (!is_sound(whole)) return "played into it, the logbook would not fit any more";
  switch (containment_of(alone, whole)) {
    case Containment::Contained:
      return std::nullopt;
    case Containment::Different:
      if (takes_back && differ_by_one_command(alone, whole)) return std::nullopt;
      return "played into it, lines of the file would be lost";
    case Containment::Other:
      break;
  }
  return "it is of another logbook";
}

[[noreturn]] void refuse_leftover(const std::string& named, const std::string& left,
                                  const std::string& harm) {
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("beside {0} lies {1}, left by a program that was killed, and it does not "
                  "belong to this file: {2}; nothing was changed; where the file is a copy that "
                  "was put back, move {3} into another folder and try again",
                  named, named + left, harm,
                  left == "-wal" ? fmt::format("{0}-wal and {0}-shm", named) : named + left));
}

std::optional<std::string> harm_of_log(const std::string& file) {
  const auto whole = with_log(file);
  if (!whole) return std::nullopt;
  const auto alone = connect_unchanging(file);
  // A program that was killed while it moved lines from the log into the file leaves it half
  // done; the log then makes it whole.
  if (!is_sound(*alone)) return std::nullopt;
  return harm_of(*alone, *whole, false);
}

std::optional<std::string> harm_of_journal(const std::string& file) {
  {
    const auto waiting = connect(file, SQLite::OPEN_READONLY, Waiting::not_at_all());
    if (is_being_written(*waiting)) return std::nullopt;
  }
  const auto alone = connect_unchanging(file);
  // Killed in the midst: the journal makes it whole.
  if (!is_sound(*alone)) return std::nullopt;
  const DraftFile draft(fs::path(file).parent_path());
  const auto whole = played_back(file, draft);
  return harm_of(*alone, *whole, true);
}

}  // namespace

bool has_journal(const std::string& file) {
  // One that is done with is taken away, or cut off, or begins with zeros.
  return begin_of_plain_file(file + "-journal", kJournalMark.size()) == kJournalMark;
}

void check_leftovers(const std::string& file, const std::string& named) {
  std::optional<std::string> harm;
  const char* left = "-wal";
  try {
    if (has_log(file)) harm = harm_of_log(file);
    if (!harm && has_journal(file)) {
      left = "-journal";
      harm = harm_of_journal(file);
    }
  } catch (const SQLite::Exception&) {
    return;  // opening it tells why
  } catch (const LogbookError&) {
    return;  // no draft can be made beside it, and so no journal played back either
  } catch (const fs::filesystem_error&) {
    return;
  }
  if (harm) refuse_leftover(named, left, *harm);
}

}  // namespace logbook
