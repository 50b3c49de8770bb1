#include "logbook/merging.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <optional>
#include <utility>

#include "failure/failure.h"
#include "logbook/copyable_values.h"
#include "logbook/guarded.h"
#include "logbook/hash_chain.h"
#include "logbook/kept_copy.h"
#include "logbook/lasting_commit.h"
#include "logbook/logbook_file.h"
#include "logbook/out_of_place.h"
#include "logbook/photograph_bytes.h"
#include "logbook/position_total.h"
#include "logbook/rows/cells.h"
#include "logbook/rows/content_tables.h"
#include "logbook/set_aside.h"
#include "logbook/soundness.h"
#include "logbook/unreadable_lines.h"
#include "logbook/verification.h"
#include "quantity/number_text.h"
#include "record/moment.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

// A copy that is no file to be read: what it is, before SQLite says less of it.
void refuse_unreadable(const std::string& copy) {
  std::error_code problem;
  if (copy == "-") {
    throw failure::InputError(
        "a copy is read from a file and not from the input; save it as one first, and name that");
  }
  if (!fs::is_regular_file(copy, problem)) return;
  if (::access(copy.c_str(), R_OK) != 0) {
    throw LogbookError(LogbookError::Kind::Unreachable,
                       fmt::format("you may not read {}: {}; nothing was merged; change its "
                                   "permissions, or copy it as one who may",
                                   copy, std::strerror(errno)));
  }
  if (fs::file_size(copy, problem) == 0 && !problem) {
    throw LogbookError(LogbookError::Kind::NotALogbook,
                       fmt::format("{} is empty (0 bytes): what copied it did not end; copy it "
                                   "once more",
                                   copy));
  }
}

void refuse_itself(const std::string& path, const std::string& copy) {
  std::error_code problem;
  if (!fs::equivalent(path, copy, problem) || problem) return;
  throw failure::InputError(fmt::format(
      "{} is this logbook itself; name the other copy, such as the one on the phone's card", copy));
}

std::unique_ptr<SQLite::Database> open_copy(const std::string& copy, Waiting& waiting) {
  refuse_unreadable(copy);
  std::error_code problem;
  if (fs::is_fifo(copy, problem) || fs::is_socket(copy, problem) ||
      fs::is_character_file(copy, problem)) {
    throw LogbookError(LogbookError::Kind::NotALogbook,
                       fmt::format("{} is no file; save the copy as one first", copy));
  }
  try {
    return open_unchanged(copy, waiting);
  } catch (const LogbookError& error) {
    if (error.kind() != LogbookError::Kind::NotALogbook) throw;
    throw LogbookError(
        error.kind(), fmt::format("{} is no logbook of boltwitness; expected a copy of this one, a "
                                  "file such as gb1.bolts; what export wrote goes into a file of "
                                  "its own first: import FILE --log NEW.bolts",
                                  copy));
  }
}

struct FirstLine {
  std::string id;
  std::string machine;
  std::string started;  // by whom and when, and the hash by which two are told apart
};

FirstLine first_line_of(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT e.id, s.machine, e.entered_at, e.by_whom, coalesce(h.hash, '')
      FROM entry e JOIN logbook_start s ON s.entry_id = e.id
                   LEFT JOIN line_hash h ON h.entry_id = e.id ORDER BY e.id LIMIT 1)");
  if (!row.executeStep()) return {};
  const auto text = [&](int column) { return row.getColumn(column).getString(); };
  constexpr std::size_t kShownOfHash = 8;
  return {
      text(0), text(1),
      fmt::format("started {} by {}, first hash {}", record::write_local(record::read_utc(text(2))),
                  text(3), text(4).substr(0, kShownOfHash))};
}

void refuse_another(SQLite::Database& ours, SQLite::Database& other, const std::string& copy) {
  const auto here = first_line_of(ours);
  const auto there = first_line_of(other);
  if (here.id == there.id) return;
  throw failure::InputError(fmt::format(
      "{} is another logbook: {}, {}, and this one is {}, {}; only copies of one "
      "logbook can be merged, that began with the same first line; to take lines over from "
      "another, "
      "write them as a table and read that in: export findings --log {}, import FILE",
      copy, quantity::quoted(there.machine), there.started, quantity::quoted(here.machine),
      here.started, copy));
}

std::size_t count_of_lines(SQLite::Database& database) {
  return static_cast<std::size_t>(database.execAndGet("SELECT count(*) FROM entry").getInt64());
}

void check_copy(SQLite::Database& other, const std::string& copy, const MergeProgress& progress) {
  progress.begin("checking the copy", count_of_lines(other));
  if (verify_open(other, Look::AtHashes, {}, progress.line).fits()) return;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("{} is not as boltwitness wrote it, so nothing was taken from it; \"boltwitness "
                  "verify --log {}\" tells what does not fit; take a copy of it that does",
                  copy, copy));
}

void check_ours(SQLite::Database& ours, const std::string& path, const MergeProgress& progress) {
  const SQLite::Transaction moment(ours);
  progress.begin("checking the log", count_of_lines(ours));
  if (verify_open(ours, Look::AtHashes, {}, progress.line).fits()) return;
  throw failure::Refusal(fmt::format(
      "{} is not as boltwitness wrote it, so nothing was put into it; \"boltwitness verify\" tells "
      "what does not fit; go back to a copy that does, and merge into that",
      path));
}

// A line as it takes its place among those of two logbooks.
struct HashedLine {
  std::string id;
  std::int64_t line = 0;
  std::string later;
  std::string hash;
};

class HashedLines {
 public:
  explicit HashedLines(SQLite::Database& database)
      : row_(database, R"(
            SELECT e.id, e.line, h.given_later, h.hash
            FROM entry e JOIN line_hash h ON h.entry_id = e.id ORDER BY e.id)") {
    step();
  }
  // Nothing behind the last.
  [[nodiscard]] const std::optional<HashedLine>& next() const { return next_; }
  void step() {
    if (row_.executeStep()) {
      next_ = {row_.getColumn(0).getString(), row_.getColumn(1).getInt64(),
               row_.getColumn(2).getString(), row_.getColumn(3).getString()};
    } else {
      next_.reset();
    }
  }

 private:
  SQLite::Statement row_;
  std::optional<HashedLine> next_;
};

[[noreturn]] void refuse_two_meanings(const HashedLine& here, const HashedLine& there,
                                      const std::string& copy) {
  if (here.later != there.later) {
    throw failure::Refusal(fmt::format(
        "line {} has one hash here and another in {}: the two copies were brought up to date from "
        "before there were hashes by different versions of boltwitness, and nothing tells that "
        "they "
        "were one; merge the files that were kept then ({}.schema-12 or the like), and enter anew "
        "what was written since",
        here.line, copy, copy));
  }
  throw failure::Refusal(fmt::format(
      "line {} here and line {} of {} bear one id ({}) and do not say the same, which boltwitness "
      "never writes: one of the two was made by something else; nothing was merged; \"boltwitness "
      "verify --against HASH\" with the hash of a page that was printed tells which of them is the "
      "one that printed it",
      here.line, there.line, copy, here.id));
}

[[noreturn]] void refuse_id(const HashedLine& there, const std::string& copy) {
  throw failure::InputError(fmt::format(
      "{}: the id of its line {} ({}) is of a year after 9999, which boltwitness never gives; "
      "nothing was merged; take a copy of it from before that line",
      copy, there.line, there.id));
}

// Which lines of the copy are new, by their ids rising, and what comes of it.
std::vector<std::string> new_ids(SQLite::Database& ours, SQLite::Database& other,
                                 const std::string& copy, Merged& merged) {
  std::vector<std::string> ids;
  HashedLines here(ours);
  HashedLines there(other);
  for (std::int64_t place = 1; here.next() || there.next(); ++place) {
    const bool is_ours = here.next() && (!there.next() || here.next()->id <= there.next()->id);
    const bool is_theirs = there.next() && (!here.next() || there.next()->id <= here.next()->id);
    if (is_ours && is_theirs && here.next()->hash != there.next()->hash) {
      refuse_two_meanings(*here.next(), *there.next(), copy);
    }
    if (!is_ours && there.next()->id >= kFirstIdTooLate) refuse_id(*there.next(), copy);
    if (is_ours) {
      ++merged.lines_before;
      if (here.next()->line != place) {
        if (merged.moved++ == 0) merged.first_moved = here.next()->line;
      }
      here.step();
    } else {
      ids.push_back(there.next()->id);
      merged.new_lines.push_back(place);
    }
    if (is_theirs) {
      ++merged.lines_of_copy;
      there.step();
    }
  }
  return ids;
}

// The rows of one table from one id on, in the order of the ids, copied line by line.
class CopiedTable {
 public:
  CopiedTable(SQLite::Database& from, SQLite::Database& into, const ContentTable& table,
              const std::string& first_id)
      : columns_(static_cast<int>(table.columns.size()) + 1),
        from_(from, fmt::format("SELECT entry_id{} FROM {} WHERE entry_id >= ? ORDER BY entry_id",
                                listed(table), quoted_name(table.name))),
        into_(into, fmt::format("INSERT INTO {} (entry_id{}) VALUES (?{})", quoted_name(table.name),
                                listed(table), placeholders(table))) {
    from_.bind(1, first_id);
    is_there_ = from_.executeStep();
  }

  // The rows of the line with this id; called with rising ones.
  void copy(const std::string& id) {
    for (; is_there_; is_there_ = from_.executeStep()) {
      const auto at = from_.getColumn(0).getString();
      if (at > id) break;
      if (at < id) continue;
      into_.reset();
      for (int i = 0; i < columns_; ++i) bind_as_it_is(into_, i + 1, from_.getColumn(i));
      into_.exec();
    }
  }

 private:
  static std::string listed(const ContentTable& table) {
    std::string text;
    for (const auto& column : table.columns) text += ", " + quoted_name(column.name);
    return text;
  }
  static std::string placeholders(const ContentTable& table) {
    std::string text;
    for (std::size_t i = 0; i < table.columns.size(); ++i) text += ", ?";
    return text;
  }

  int columns_;
  SQLite::Statement from_;
  SQLite::Statement into_;
  bool is_there_ = false;
};

std::vector<std::unique_ptr<CopiedTable>> copied_tables(SQLite::Database& from,
                                                        SQLite::Database& into,
                                                        const std::string& first_id) {
  std::vector<std::unique_ptr<CopiedTable>> tables;
  for (const auto& table : content_tables(into)) {
    tables.push_back(std::make_unique<CopiedTable>(from, into, table, first_id));
  }
  return tables;
}

// What a copy calls one of its lines: "line 5 (removal)".
std::string line_of_copy(SQLite::Database& other, const std::string& id) {
  SQLite::Statement row(other, "SELECT line, kind FROM entry WHERE id = ?");
  row.bind(1, id);
  if (!row.executeStep()) return fmt::format("the line with the id {}", id);
  return fmt::format("line {} ({})", row.getColumn(0).getInt64(), row.getColumn(1).getString());
}

// Runs what puts a part of the copy into the logbook; what the schema refuses of it is told with
// the copy and what `which` calls that part.
template <class Insert, class Which>
void insert_or_name(const std::string& copy, const Insert& insert, const Which& which) {
  try {
    insert();
  } catch (const SQLite::Exception& error) {
    if ((error.getErrorCode() & 0xFF) != SQLITE_CONSTRAINT) throw;
    throw failure::InputError(
        fmt::format("{}: its {} cannot stand in a logbook: {}; nothing was merged; take a copy of "
                    "it from before that was written",
                    copy, which(), error.what()));
  }
}

// Each behind the last line first, since its rows are only taken for that one.
void insert_lines(SQLite::Database& ours, SQLite::Database& other,
                  const std::vector<std::string>& ids, const std::string& copy,
                  std::int64_t last_line, const MergeProgress& progress) {
  HashChain chain(ours);
  auto tables = copied_tables(other, ours, ids.front());
  SQLite::Statement from(other, R"(
      SELECT id, kind, by_whom, done_at, entered_at, device, device_before, file_before,
             given_later, hash
      FROM entry JOIN line_hash ON entry_id = id WHERE id >= ? ORDER BY id)");
  from.bind(1, ids.front());
  SQLite::Statement into(ours, R"(
      INSERT INTO entry (line, id, kind, by_whom, done_at, entered_at, device)
      VALUES (?, ?, ?, ?, ?, ?, ?))");
  for (auto next = ids.begin(); next != ids.end() && from.executeStep();) {
    const auto text = [&](int column) { return from.getColumn(column).getString(); };
    const auto id = text(0);
    if (id != *next) continue;
    ++next;
    const auto insert = [&] {
      chain.open(id);
      into.reset();
      into.bind(1, ++last_line);
      for (int i = 0; i < 6; ++i) into.bind(i + 2, text(i));
      into.exec();
      for (const auto& table : tables) table->copy(id);
      chain.close_as(id, {text(6), text(7), text(8)}, text(9));
    };
    insert_or_name(copy, insert, [&] { return line_of_copy(other, id); });
    progress.line();
  }
}

// In two moves, since numbers are unique at every moment.
void number_by_id(SQLite::Database& database, const std::string& first_id, std::int64_t first) {
  SQLite::Statement move(database, R"(
      UPDATE entry SET line = -placed.line
      FROM (SELECT id, :first - 1 + row_number() OVER (ORDER BY id) AS line
            FROM entry WHERE id >= :id) AS placed
      WHERE entry.id = placed.id AND entry.line <> placed.line)");
  move.bind(":first", first);
  move.bind(":id", first_id);
  move.exec();
  database.exec("UPDATE entry SET line = -line WHERE line < 0");
}

// A row of the table of signatures, column by column.
using SignatureRow = std::array<std::string, 5>;

// Those that the copy has and the logbook not, whole as they are.
std::vector<SignatureRow> new_signatures(SQLite::Database& ours, SQLite::Database& other) {
  SQLite::Statement from(
      other, "SELECT line_id, public_key, by_whom, signed_at, signature FROM signature");
  SQLite::Statement known(ours, R"(
      SELECT 1 FROM signature
      WHERE line_id = ? AND public_key = ? AND by_whom = ? AND signed_at = ?)");
  std::vector<SignatureRow> rows;
  while (from.executeStep()) {
    SignatureRow row;
    for (int i = 0; i < 5; ++i) row[static_cast<std::size_t>(i)] = from.getColumn(i).getString();
    known.reset();
    for (int i = 0; i < 4; ++i) known.bind(i + 1, row[static_cast<std::size_t>(i)]);
    if (!known.executeStep()) rows.push_back(std::move(row));
  }
  return rows;
}

void insert_signatures(SQLite::Database& ours, const std::vector<SignatureRow>& rows,
                       const std::string& copy) {
  SQLite::Statement into(ours, R"(
      INSERT INTO signature (line_id, public_key, by_whom, signed_at, signature)
      VALUES (?, ?, ?, ?, ?))");
  for (const auto& row : rows) {
    const auto insert = [&] {
      into.reset();
      for (int i = 0; i < 5; ++i) into.bind(i + 1, row[static_cast<std::size_t>(i)]);
      into.exec();
    };
    insert_or_name(copy, insert, [&] { return fmt::format("signature of {}", row[2]); });
  }
}

// Nothing of a logbook that is in memory alone.
std::unique_ptr<KeptCopy> as_it_was(SQLite::Database& ours, Waiting& waiting) {
  const std::string file = sqlite3_db_filename(ours.getHandle(), "main");
  return file.empty() ? nullptr : std::make_unique<KeptCopy>(file, waiting);
}

// Those that the copy has and the logbook not, one after the other.
void insert_photographs(SQLite::Database& ours, SQLite::Database& other) {
  const auto known = kept_photographs(ours);
  for (const auto& hash : kept_photographs(other)) {
    if (std::ranges::binary_search(known, hash)) continue;
    // They were held against it just now, when the copy was verified.
    if (const auto bytes = photograph_bytes(other, hash)) {
      (void)keep_photograph_bytes(ours, *bytes);
    }
  }
}

// The schema holds a strike against what it strikes where that is there before it.
void check_strikes(SQLite::Database& ours, SQLite::Database& other,
                   const std::vector<std::string>& taken, const std::string& path,
                   const std::string& copy) {
  SQLite::Statement row(ours, R"(
      SELECT s.entry_id FROM strike s JOIN entry e ON e.id = s.struck_id
      WHERE e.id >= s.entry_id OR e.kind IN ('strike', 'start') ORDER BY s.entry_id LIMIT 1)");
  if (!row.executeStep()) return;
  const auto id = row.getColumn(0).getString();
  const bool is_taken = std::ranges::binary_search(taken, id);
  throw failure::InputError(fmt::format(
      "{}: its {} strikes a line that came after it, or one that cannot be struck; nothing was "
      "merged; take a copy of it from before that line",
      is_taken ? copy : path, line_of_copy(is_taken ? other : ours, id)));
}

[[noreturn]] void refuse_unreadable_lines(const std::vector<record::UnreadableLine>& unreadable,
                                          SQLite::Database& other, const std::string& copy) {
  const auto& first = unreadable.front();
  const auto others = unreadable.size() - 1;
  throw failure::InputError(
      fmt::format("{}: its {} cannot be read: {}{}; nothing was merged; {}", copy,
                  line_of_copy(other, first.id), first.why,
                  others == 0 ? "" : fmt::format(", and {} more of its lines", others),
                  record::can_be_struck(first) ? "strike that line there and enter it again"
                                               : "take a copy of it from before that line"));
}

// Reads the lines that were taken over as every command will: one that cannot be read and is not
// struck would shut the whole logbook. Those that are struck, and all strikes among the lines, are
// noted with the numbers that they have now.
void check_readable(SQLite::Database& database, SQLite::Database& other,
                    const std::vector<std::string>& ids, const std::string& copy, Merged& merged) {
  const auto is_taken = [&](const std::string& id) { return std::ranges::binary_search(ids, id); };
  std::vector<record::UnreadableLine> unreadable;
  auto read = read_or_tell(database,
                           {.unreadable = unreadable, .from_id = ids.front(), .struck_too = true});
  std::erase_if(unreadable, [&](const auto& line) { return !is_taken(line.id); });
  for (const auto& line : unreadable) {
    if (line.struck) merged.unreadable.push_back(line);
  }
  std::erase_if(unreadable, [](const auto& line) { return line.struck; });
  if (!unreadable.empty()) refuse_unreadable_lines(unreadable, other, copy);
  if (!merged.unreadable.empty()) {
    if (auto found = value_no_copy_holds(database)) merged.no_copy_holds = std::move(found->says);
  }
  SQLite::Statement number(database, "SELECT line FROM entry WHERE id = ?");
  for (auto& strike : read.strikes) {
    if (!is_taken(strike.stamp.id)) continue;
    number.reset();
    number.bind(1, strike.content.struck_id);
    if (!number.executeStep()) continue;  // one that strikes nothing is refused by its table
    merged.strikes.push_back({std::move(strike.stamp), number.getColumn(0).getInt64(),
                              std::move(strike.content.reason)});
  }
}

}  // namespace

Merging::Merging(Logbook& logbook, const std::string& copy, const MergeProgress& progress,
                 Waiting& waiting)
    : logbook_(logbook) {
  refuse_itself(logbook_.path_, copy);
  auto& ours = *logbook_.database_;
  const auto other = open_copy(copy, waiting);
  std::optional<SQLite::Transaction> moment;
  guarded(copy, [&] {
    moment.emplace(*other);
    refuse_another(ours, *other, copy);
    check_copy(*other, copy, progress);
  });
  guarded_write(logbook_.path_, [&] {
    logbook_.soundness_->check_places();
    check_ours(ours, logbook_.path_, progress);
    transaction_ =
        std::make_unique<SQLite::Transaction>(ours, SQLite::TransactionBehavior::IMMEDIATE);
    const auto ids = new_ids(ours, *other, copy, merged_);
    const auto signatures = new_signatures(ours, *other);
    // Before the first line goes in: what is written behind the lock no other connection sees.
    if (!ids.empty() || !signatures.empty()) before_ = as_it_was(ours, waiting);
    if (!ids.empty()) {
      progress.begin("merging", ids.size());
      // A table may come before the one that it belongs to.
      ours.exec("PRAGMA defer_foreign_keys = ON");
      insert_photographs(ours, *other);
      // What keeps lines in order and as they are, while lines are put between them.
      SetAside order(ours, {"entry_in_time", "entry_never_changed"});
      insert_lines(ours, *other, ids, copy, merged_.lines_before, progress);
      number_by_id(ours, ids.front(), merged_.new_lines.front());
      order.put_back();
      keep_ends(ours);
      check_strikes(ours, *other, ids, logbook_.path_, copy);
      check_readable(ours, *other, ids, copy, merged_);
      check_position_total(ours);
    }
    insert_signatures(ours, signatures, copy);
    merged_.new_signatures = signatures.size();
  });
}

Merging::~Merging() = default;

std::string Merging::commit() {
  std::string kept;
  const auto take_away = [&] {
    std::error_code ignored;
    if (!kept.empty()) fs::remove(kept, ignored);
  };
  try {
    guarded_write(logbook_.path_, [&] {
      if (before_) kept = before_->publish("before-merge");
      commit_for_good(*logbook_.database_, *transaction_, logbook_.path_);
    });
  } catch (const LogbookError& error) {
    // From what may be merged after all somebody may want to go back.
    if (error.kind() != LogbookError::Kind::InDoubt) take_away();
    throw;
  } catch (...) {
    take_away();
    throw;
  }
  before_.reset();
  return kept;
}

}  // namespace logbook
