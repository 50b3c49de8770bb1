#include "logbook/chain_check.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "logbook/canonical_line.h"
#include "logbook/hash_chain.h"
#include "logbook/rows/tables_of_kind.h"
#include "logbook/schema.h"
#include "record/logbook_copy.h"

namespace logbook {
namespace {

using record::ChainCheck;

// The stored hashes in the order of their ids, beside the lines.
class StoredHashes {
 public:
  explicit StoredHashes(SQLite::Database& database)
      : row_(database, R"(
            SELECT entry_id, device_before, file_before, given_later, hash
            FROM line_hash ORDER BY entry_id)") {
    step();
  }

  [[nodiscard]] const std::optional<std::string>& next_id() const { return next_id_; }
  [[nodiscard]] Link link() { return {text(1), text(2), text(3)}; }
  [[nodiscard]] std::string hash() { return text(4); }
  void step() {
    if (row_.executeStep()) {
      next_id_ = text(0);
    } else {
      next_id_.reset();
    }
  }

 private:
  [[nodiscard]] std::string text(int column) { return row_.getColumn(column).getString(); }

  SQLite::Statement row_;
  std::optional<std::string> next_id_;
};

// The hashes that are named as before a line and are not that of the line just before it: none but
// in a logbook of merged copies. Only these have to be known again when a later line names them.
class NamedFromAfar {
 public:
  explicit NamedFromAfar(SQLite::Database& database) {
    SQLite::Statement row(
        database, "SELECT file_before, device_before, hash FROM line_hash ORDER BY entry_id");
    std::string last;
    while (row.executeStep()) {
      const auto file_before = row.getColumn(0).getString();
      if (file_before != last) {
        for (auto& hash : hashes_in(file_before)) device_of_.try_emplace(std::move(hash));
      }
      // The lines of a device that wrote while copies were apart.
      if (!device_of_.empty()) device_of_.try_emplace(row.getColumn(1).getString());
      last = row.getColumn(2).getString();
    }
  }

  // A line of this hash has come.
  void note(const std::string& hash, const std::string& device) {
    const auto named = device_of_.find(hash);
    if (named != device_of_.end()) named->second = device;
  }

  // Whether one has; nothing where none.
  [[nodiscard]] const std::string* device_of(const std::string& hash) const {
    const auto named = device_of_.find(hash);
    return named == device_of_.end() || named->second.empty() ? nullptr : &named->second;
  }

 private:
  std::unordered_map<std::string, std::string> device_of_;  // empty until the line has come
};

std::set<std::string> stored_ends(SQLite::Database& database) {
  std::set<std::string> ids;
  if (schema_version(database) < record::kFirstSchemaWithMerging) return ids;
  SQLite::Statement row(database, "SELECT line_id FROM chain_end");
  while (row.executeStep()) ids.insert(row.getColumn(0).getString());
  return ids;
}

class Checking {
 public:
  Checking(SQLite::Database& database, const std::vector<std::string>& sought)
      : database_(database), stored_(database), afar_(database), sought_(sought) {}

  void line(const CanonicalLines::Line& line) {
    using Fault = ChainCheck::Fault;
    ++check_.lines;
    hashes_before(line.id);
    // Of any number that a file may hold.
    if (static_cast<std::uint64_t>(line.line) != static_cast<std::uint64_t>(before_) + 1) {
      misfit(Fault::Numbers, line);
    }
    std::string hash;
    if (stored_.next_id() == line.id) {
      hash = stored_.hash();
      const auto link = stored_.link();
      const bool fits = judge(line, link, hash);
      note(line, link, hash);
      if (fits && last_of_[line.device] != link.device_before && !comes_after_another(line, link)) {
        misfit(Fault::DeviceBefore, line);
      }
      stored_.step();
    } else {
      misfit(Fault::NoHash, line);
    }
    before_ = line.line;
    last_ = hash;
    last_of_[line.device] = hash;
    check_.last = {line.line, hash};
    if (const auto asked = std::ranges::find_if(
            sought_, [&](const auto& begin) { return hash.starts_with(begin); });
        asked != sought_.end()) {
      check_.sought.push_back(check_.last);
      sought_.erase(asked);
    }
  }

  void row_of_none(const std::string& table, const std::string& id) {
    misfit(ChainCheck::Fault::RowsOfNoLine, {.id = id}, table);
  }

  [[nodiscard]] ChainCheck done() {
    for (; stored_.next_id(); stored_.step()) hash_of_none();
    close_ends();
    if (!check_.sought.empty()) name_lines_of_sought();
    return std::move(check_);
  }

 private:
  struct End {
    std::string id;
    std::string hash;
  };

  // Whether all but the line before by its device fits.
  bool judge(const CanonicalLines::Line& line, const Link& link, const std::string& hash) {
    using Fault = ChainCheck::Fault;
    const auto fault = hash.empty()                             ? std::optional(Fault::NoHash)
                       : hash != hash_of(link, line.text)       ? std::optional(Fault::Changed)
                       : !are_tables_of(line.kind, line.tables) ? std::optional(Fault::NoContent)
                       : !comes_after(link.file_before)         ? std::optional(Fault::LineBefore)
                                                                : std::nullopt;
    if (fault) misfit(*fault, line);
    if (!fault && !link.later.empty()) {
      ++check_.later;
      check_.last_later = line.line;
    }
    return !fault;
  }

  // The line before, or the ends of copies that were apart, each there and each once.
  [[nodiscard]] bool comes_after(const std::string& file_before) const {
    if (file_before == last_) return true;
    const auto hashes = hashes_in(file_before);
    return !hashes.empty() && as_before(hashes) == file_before &&
           std::ranges::adjacent_find(hashes) == hashes.end() &&
           std::ranges::all_of(hashes, [&](const auto& hash) {
             return hash == last_ || afar_.device_of(hash) != nullptr;
           });
  }

  // While copies were apart, the line that its device wrote before it may be another than the last:
  // the device wrote in both.
  [[nodiscard]] bool comes_after_another(const CanonicalLines::Line& line, const Link& link) const {
    if (ends_.size() == 1) return false;  // it has seen all lines there are
    if (link.device_before.empty()) return true;
    const auto* device = afar_.device_of(link.device_before);
    return device != nullptr && *device == line.device;
  }

  void note(const CanonicalLines::Line& line, const Link& link, const std::string& hash) {
    afar_.note(hash, line.device);
    if (hash.empty()) return;
    if (link.file_before == last_ && ends_.size() == 1) {
      ends_.clear();
    } else {
      const auto before = hashes_in(link.file_before);
      std::erase_if(ends_, [&](const auto& end) {
        return std::ranges::find(before, end.second.hash) != before.end();
      });
    }
    ends_[line.line] = {line.id, hash};
  }

  void hashes_before(const std::string& id) {
    for (; stored_.next_id() && *stored_.next_id() < id; stored_.step()) hash_of_none();
  }

  void hash_of_none() {
    misfit(ChainCheck::Fault::HashOfNoLine, {.id = *stored_.next_id()}, "line_hash");
  }

  // The last line is an end, and of the others those that are stored as such. Where something else
  // does not fit, what was after it is told by that.
  void close_ends() {
    auto stored = stored_ends(database_);
    const bool fits = check_.misfits.empty();
    for (const auto& [line, end] : ends_) {
      check_.ends.push_back({line, end.hash});
      const bool is_known = stored.erase(end.id) > 0 || line == check_.last.line;
      if (fits && !is_known) misfit(ChainCheck::Fault::NotAnEnd, {.line = line, .id = end.id});
    }
    for (const auto& id : stored) {
      if (fits) misfit(ChainCheck::Fault::NotAnEnd, {.id = id});
    }
  }

  // They and all that came before them, by the numbers that they have now.
  void name_lines_of_sought() {
    std::set<std::string> before;
    for (const auto& sought : check_.sought) before.insert(sought.hash);
    SQLite::Statement row(database_, R"(
        SELECT e.line, h.hash, h.file_before FROM entry e JOIN line_hash h ON h.entry_id = e.id
        ORDER BY e.id DESC)");
    while (row.executeStep()) {
      if (before.erase(row.getColumn(1).getString()) == 0) continue;
      check_.lines_of_sought.push_back(row.getColumn(0).getInt64());
      for (auto& each : hashes_in(row.getColumn(2).getString())) before.insert(std::move(each));
    }
    std::ranges::reverse(check_.lines_of_sought);
  }

  void misfit(ChainCheck::Fault fault, const CanonicalLines::Line& line,
              const std::string& table = "") {
    constexpr std::size_t kMostTold = 10;
    if (check_.misfits.size() >= kMostTold) {
      ++check_.others;
    } else {
      check_.misfits.push_back({fault, line.line, before_, line.id, table});
    }
  }

  SQLite::Database& database_;
  StoredHashes stored_;
  NamedFromAfar afar_;
  std::vector<std::string> sought_;  // not found yet
  ChainCheck check_;
  std::int64_t before_ = 0;
  std::string last_;
  std::unordered_map<std::string, std::string> last_of_;  // by device
  std::map<std::int64_t, End> ends_;  // by line: so far none is known to have come after it
};

}  // namespace

ChainCheck check_chain(SQLite::Database& database, const std::vector<std::string>& sought,
                       const std::function<void()>& line_checked) {
  Checking checking(database, sought);
  CanonicalLines(database).for_each(
      [&](const CanonicalLines::Line& line) {
        checking.line(line);
        if (line_checked) line_checked();
      },
      [&](const std::string& table, const std::string& id) { checking.row_of_none(table, id); });
  return checking.done();
}

}  // namespace logbook
