#include "logbook/restore.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <string_view>
#include <unordered_map>

#include "failure/failure.h"
#include "logbook/chain_check.h"
#include "logbook/copied_rows.h"
#include "logbook/every_kind.h"
#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/photograph_bytes.h"
#include "logbook/position_total.h"
#include "logbook/rows/content_tables.h"
#include "logbook/rows/tables_of_kind.h"
#include "logbook/schema.h"
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

// Whether each line is struck, by rising number.
using StruckLines = std::vector<bool>;

// Notes that of the lines of another copy.
class NotesStruck : public record::CopyTaker {
 public:
  explicit NotesStruck(StruckLines& struck) : struck_(struck) {}
  void begin(const record::CopySize&) override {}
  void take(const record::StoredLine& line) override { struck_.push_back(line.struck); }
  void end(const std::vector<record::StoredSignature>&, const std::vector<std::string>&) override {}

 private:
  StruckLines& struck_;
};

// The place in the copy of a line that was written out of it.
std::int64_t place_of(SQLite::Database& database, const std::string& id) {
  SQLite::Statement before(
      database, "SELECT count(*) FROM entry WHERE line < (SELECT line FROM entry WHERE id = ?)");
  before.bind(1, id);
  before.executeStep();
  return before.getColumn(0).getInt64();
}

// Names the line by its place in the copy. One that is struck counts nowhere and may be as it is.
void refuse_unreadable(const Logbook::Unreadable& unreadable, SQLite::Database& database) {
  const auto first = std::ranges::find(unreadable, false, &record::UnreadableLine::struck);
  if (first == unreadable.end()) return;
  throw InputError(fmt::format("/lines/{}: the copy holds what cannot be read: {}",
                               place_of(database, first->id), first->why));
}

// In which tables a line has rows, whether they can be read or not.
class TablesOfLine {
 public:
  explicit TablesOfLine(SQLite::Database& database) {
    for (const auto& table : content_tables(database)) {
      rows_.emplace(table.name, std::make_unique<SQLite::Statement>(
                                    database, fmt::format("SELECT 1 FROM {} WHERE entry_id = ?",
                                                          quoted_name(table.name))));
    }
  }

  // Whether they are those of this kind and no others.
  [[nodiscard]] bool are_of(const std::string& kind, const std::string& id) {
    std::vector<std::string_view> with_rows;
    for (const auto& [name, row] : rows_) {
      row->reset();
      row->bind(1, id);
      if (row->executeStep()) with_rows.push_back(name);
    }
    return are_tables_of(kind, with_rows);
  }

 private:
  std::map<std::string, std::unique_ptr<SQLite::Statement>> rows_;  // by table
};

// Whether every line is read back as its own kind and struck or not as the copy says, of which some
// thousand are held at once: what a copy of the new logbook is held to as well.
bool can_be_copied(const Logbook& restored, const StruckLines& struck) {
  StruckLines there;
  NotesStruck taker(there);
  try {
    restored.copy(taker);
  } catch (const LogbookError& error) {
    if (error.kind() != LogbookError::Kind::Damaged) throw;
    return false;
  }
  return there == struck;
}

// Of what is wrong the first, for which all lines are looked at together.
void refuse_what_is_wrong(const Logbook& restored, SQLite::Database& database,
                          const StruckLines& struck) {
  std::unordered_map<std::string, std::vector<Reading>> said;
  Logbook::Unreadable unreadable;
  const auto lines = restored.history(unreadable);
  refuse_unreadable(unreadable, database);
  (void)restored.job();
  for (const auto& line : lines) {
    said[line.stamp.id].push_back({kind_of(line.content), line.struck_by.has_value()});
  }
  for (const auto& line : unreadable) said[line.id] = {{line.kind, true}};
  TablesOfLine tables(database);
  SQLite::Statement row(database, R"(
      SELECT id, kind, EXISTS (SELECT 1 FROM strike WHERE entry_id = entry.id)
      FROM entry ORDER BY line)");
  for (std::size_t i = 0; row.executeStep(); ++i) {
    const auto id = row.getColumn(0).getString();
    const auto kind = row.getColumn(1).getString();
    auto readings = said[id];
    if (row.getColumn(2).getInt() != 0) readings.push_back({"strike", false});
    if (readings.size() != 1 || readings.front().kind != kind || !tables.are_of(kind, id)) {
      throw InputError(fmt::format("/lines/{}: its rows are not those of one {}", i, kind));
    }
    if (readings.front().struck != struck[i]) {
      throw InputError(
          fmt::format("/lines/{}/struck: a line is struck where, and only where, a "
                      "later line strikes it",
                      i));
    }
  }
}

// Whatever a command could stumble over has to show now: every line is read back as its own kind,
// once, and struck or not as the copy says.
void check_readable(const Logbook& restored, SQLite::Database& database,
                    const StruckLines& struck) {
  if (can_be_copied(restored, struck)) {
    (void)restored.job_of_none();  // where the logbook begins is looked for there
  } else {
    refuse_what_is_wrong(restored, database, struck);
  }
}

void check_readable_at(const std::string& file, SQLite::Database& database,
                       const StruckLines& struck) {
  try {
    check_readable(Logbook::open_to_read(file), database, struck);
  } catch (const LogbookError& error) {
    if (error.kind() != LogbookError::Kind::Damaged) throw;
    std::string why = error.what();
    if (why.starts_with(file)) why.replace(0, file.size(), "the copy");
    throw InputError(why);
  }
}

// A copy in which something was changed says so itself.
void check_hashes(SQLite::Database& database, int schema) {
  if (schema < record::kFirstSchemaWithHashes) return;
  const auto check = check_chain(database);
  // Reading it back names the rows that are not there.
  const auto misfit = std::ranges::find_if(check.misfits, [](const auto& each) {
    return each.fault != record::ChainCheck::Fault::NoContent;
  });
  if (misfit == check.misfits.end()) return;
  const auto& first = *misfit;
  throw InputError(fmt::format(
      "/lines/{}/chain: line {} does not fit its hash; the copy was changed after it was written; "
      "take it once more from its logbook, with \"boltwitness export --to FILE\"",
      place_of(database, first.id), first.line));
}

// What is handed over is kept under its own SHA-256, and the lines name theirs.
void insert_photographs(SQLite::Database& database, const record::CopySource& copy) {
  const auto& hashes = copy.photographs();
  if (hashes.empty()) return;
  std::size_t place = 0;
  copy.each_photograph([&](std::string_view bytes) {
    const auto at = place++;
    if (at >= hashes.size() || bytes.empty() || bytes.size() > record::kMostPhotographBytes ||
        keep_photograph_bytes(database, bytes) != hashes[at]) {
      throw InputError(fmt::format(
          "/photographs/{}: its bytes are not those that its SHA-256 was made of; the copy was "
          "changed after it was written; take it once more from its logbook",
          at));
    }
  });
}

void check_photographs_shown(SQLite::Database& database, int schema) {
  if (schema < record::kFirstSchemaWithPhotographs) return;
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

void make(const std::string& path, const record::CopySource& copy, const LineWritten& line_written,
          bool only_check) {
  const int schema = copy.size().schema;
  check_schema(schema);
  const auto fill = [&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    insert_photographs(database, copy);
    StruckLines struck;
    insert_copy(database, copy, [&](const record::StoredLine& line) {
      struck.push_back(line.struck);
      line_written(line);
    });
    check_references(database);
    check_position_total(database);
    check_photographs_shown(database, schema);
    transaction.commit();
    check_hashes(database, schema);
    check_readable_at(database.getFilename(), database, struck);
    if (only_check) throw OnlyChecked();
  };
  create_file(path, fill, schema);
}

}  // namespace

void restore_logbook(const std::string& path, const record::CopySource& copy,
                     const LineWritten& line_written) {
  make(path, copy, line_written, false);
}

void check_restorable(const std::string& path, const record::CopySource& copy,
                      const LineWritten& line_written) {
  try {
    make(path, copy, line_written, true);
  } catch (const OnlyChecked&) {
    return;
  }
}

}  // namespace logbook
