#include "logbook/restore.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "failure/failure.h"
#include "logbook/chain_check.h"
#include "logbook/copied_rows.h"
#include "logbook/derived_columns.h"
#include "logbook/every_kind.h"
#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/photograph_bytes.h"
#include "logbook/schema.h"
#include "logbook/signature.h"
#include "record/photograph.h"

namespace logbook {
namespace {

using failure::InputError;

// Thrown where the copy was only to be checked, so that the new file is dropped again.
struct OnlyChecked {};

void check_schema(int version) {
  const int newest = schema_steps().back().version;
  if (version > newest) {
    throw InputError(
        fmt::format("/schema: {} is of a later version of boltwitness, this program knows up to "
                    "{}; update the program",
                    version, newest));
  }
  if (version < schema_steps().front().version) {
    throw InputError(
        fmt::format("/schema: {} is no version of the schema; expected 1 to {}", version, newest));
  }
}

void check_references(SQLite::Database& database) {
  SQLite::Statement orphan(database, "PRAGMA foreign_key_check");
  if (!orphan.executeStep()) return;
  throw InputError(
      fmt::format("a row of {} belongs to a row of {} that is not there; the copy is not whole",
                  orphan.getColumn(0).getString(), orphan.getColumn(2).getString()));
}

// What a line says, as the readers of its kind understand it.
struct Reading {
  std::string kind;
  bool struck = false;
};

bool has_rows_in(const record::StoredLine& line, std::string_view table) {
  return std::ranges::any_of(line.tables, [&](const auto& each) { return each.name == table; });
}

// Names the line by its place in the copy.
void refuse_unreadable(const Logbook::Unreadable& unreadable, const record::LogbookCopy& copy) {
  if (unreadable.empty()) return;
  const auto& first = unreadable.front();
  const auto at = std::ranges::find(copy.lines, first.id, &record::StoredLine::id);
  throw InputError(fmt::format("/lines/{}: the copy holds what cannot be read: {}",
                               at - copy.lines.begin(), first.why));
}

// Whatever a command could stumble over has to show now: every line is read back as its own kind,
// once, and struck or not as the copy says.
void check_readable(const Logbook& restored, SQLite::Database& database,
                    const record::LogbookCopy& copy) {
  std::unordered_map<std::string, std::vector<Reading>> said;
  Logbook::Unreadable unreadable;
  const auto lines = restored.history(unreadable);
  refuse_unreadable(unreadable, copy);
  (void)restored.job();
  // Before that, earlier versions wrote what they wrote.
  if (copy.schema >= record::kFirstSchemaWithHashes) check_derived_columns(database, lines);
  for (const auto& line : lines) {
    said[line.stamp.id].push_back({kind_of(line.content), line.struck_by.has_value()});
  }
  for (std::size_t i = 0; i < copy.lines.size(); ++i) {
    const auto& line = copy.lines[i];
    auto readings = said[line.id];
    if (has_rows_in(line, "strike")) readings.push_back({"strike", false});
    if (readings.size() != 1 || readings.front().kind != line.kind) {
      throw InputError(fmt::format("/lines/{}: its rows are not those of one {}", i, line.kind));
    }
    if (readings.front().struck != line.struck) {
      throw InputError(
          fmt::format("/lines/{}/struck: a line is struck where, and only where, a "
                      "later line strikes it",
                      i));
    }
  }
}

void check_readable_at(const std::string& file, SQLite::Database& database,
                       const record::LogbookCopy& copy) {
  try {
    check_readable(Logbook::open_to_read(file), database, copy);
  } catch (const LogbookError& error) {
    if (error.kind() != LogbookError::Kind::Damaged) throw;
    std::string why = error.what();
    if (why.starts_with(file)) why.replace(0, file.size(), "the copy");
    throw InputError(why);
  }
}

// A copy in which something was changed says so itself.
void check_hashes(SQLite::Database& database, const record::LogbookCopy& copy) {
  if (copy.schema < record::kFirstSchemaWithHashes) return;
  const auto check = check_chain(database);
  if (check.misfits.empty()) return;
  const auto& first = check.misfits.front();
  const auto at = std::ranges::find(copy.lines, first.id, &record::StoredLine::id);
  throw InputError(fmt::format(
      "/lines/{}/chain: line {} does not fit its hash; the copy was changed after it was written; "
      "take it once more from its logbook, with \"boltwitness export --to FILE\"",
      at - copy.lines.begin(), first.line));
}

void check_given_signatures(SQLite::Database& database, const record::LogbookCopy& copy) {
  if (copy.schema < record::kFirstSchemaWithSignatures) return;
  for (const auto& signature : check_signatures(database)) {
    if (signature.fits) continue;
    throw InputError(fmt::format(
        "/signatures: the one of {} at line {} does not fit; the copy was changed after it was "
        "written; take it once more from its logbook",
        signature.by, signature.line));
  }
}

// What is handed over is kept under its own SHA-256, and the lines name theirs.
void insert_photographs(SQLite::Database& database, const record::LogbookCopy& copy,
                        const EachPhotograph& photographs) {
  if (copy.photographs.empty()) return;
  std::size_t place = 0;
  photographs([&](std::string_view bytes) {
    const auto at = place++;
    if (at >= copy.photographs.size() || bytes.empty() ||
        bytes.size() > record::kMostPhotographBytes ||
        keep_photograph_bytes(database, bytes) != copy.photographs[at]) {
      throw InputError(fmt::format(
          "/photographs/{}: its bytes are not those that its SHA-256 was made of; the copy was "
          "changed after it was written; take it once more from its logbook",
          at));
    }
  });
}

void check_photographs_shown(SQLite::Database& database, const record::LogbookCopy& copy) {
  if (copy.schema < record::kFirstSchemaWithPhotographs) return;
  const auto misfits = check_photographs(database);
  if (misfits.empty()) return;
  const auto& first = misfits.front();
  if (first.line == 0) {
    throw InputError(
        fmt::format("/photographs: no line shows the one with SHA-256 {}", first.sha256));
  }
  throw InputError(
      fmt::format("/photographs: what line {} shows (SHA-256 {}) is not there or no such picture; "
                  "take the copy "
                  "once more from its logbook",
                  first.line, first.sha256));
}

void make(const std::string& path, const record::LogbookCopy& copy,
          const EachPhotograph& photographs, const std::function<void()>& line_written,
          bool only_check) {
  check_schema(copy.schema);
  const auto fill = [&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    insert_photographs(database, copy, photographs);
    insert_copy(database, copy, line_written);
    check_references(database);
    check_photographs_shown(database, copy);
    transaction.commit();
    check_hashes(database, copy);
    check_readable_at(database.getFilename(), database, copy);
    check_given_signatures(database, copy);
    if (only_check) throw OnlyChecked();
  };
  create_file(path, fill, copy.schema);
}

}  // namespace

void restore_logbook(const std::string& path, const record::LogbookCopy& copy,
                     const EachPhotograph& photographs, const std::function<void()>& line_written) {
  make(path, copy, photographs, line_written, false);
}

void check_restorable(const std::string& path, const record::LogbookCopy& copy,
                      const EachPhotograph& photographs,
                      const std::function<void()>& line_written) {
  try {
    make(path, copy, photographs, line_written, true);
  } catch (const OnlyChecked&) {
    return;
  }
}

}  // namespace logbook
