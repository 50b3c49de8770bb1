#include "logbook/hash_chain.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <unordered_map>

#include "logbook/canonical_line.h"
#include "logbook/digest.h"

namespace logbook {
namespace {

using record::ChainCheck;

// The hash of the line of this device that comes last, or of any.
std::string hash_before(SQLite::Database& database, const std::string& device) {
  SQLite::Statement row(database, R"(
      SELECT h.hash FROM entry e JOIN line_hash h ON h.entry_id = e.id
      WHERE h.hash <> '' AND (:device = '' OR e.device = :device)
      ORDER BY e.line DESC LIMIT 1)");
  row.bind(":device", device);
  return row.executeStep() ? row.getColumn(0).getString() : std::string();
}

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

class Checking {
 public:
  Checking(SQLite::Database& database, const std::string& sought)
      : stored_(database), sought_(sought) {}

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
      judge(line, stored_.link(), hash);
      stored_.step();
    } else {
      misfit(Fault::NoHash, line);
    }
    before_ = line.line;
    last_ = hash;
    last_of_[line.device] = hash;
    check_.last = {line.line, hash};
    if (!sought_.empty() && !check_.sought && hash.starts_with(sought_)) {
      check_.sought = check_.last;
    }
  }

  void row_of_none(const std::string& table, const std::string& id) {
    misfit(ChainCheck::Fault::RowsOfNoLine, {0, id, {}, {}}, table);
  }

  [[nodiscard]] ChainCheck done() {
    for (; stored_.next_id(); stored_.step()) hash_of_none();
    return std::move(check_);
  }

 private:
  void judge(const CanonicalLines::Line& line, const Link& link, const std::string& hash) {
    using Fault = ChainCheck::Fault;
    if (hash.empty()) return misfit(Fault::NoHash, line);
    if (hash != hash_of(link, line.text)) return misfit(Fault::Changed, line);
    if (link.file_before != last_) return misfit(Fault::LineBefore, line);
    if (link.device_before != last_of_[line.device]) return misfit(Fault::DeviceBefore, line);
    if (!link.later.empty()) {
      ++check_.later;
      check_.given_later = link.later;
    }
  }

  void hashes_before(const std::string& id) {
    for (; stored_.next_id() && *stored_.next_id() < id; stored_.step()) hash_of_none();
  }

  void hash_of_none() {
    misfit(ChainCheck::Fault::HashOfNoLine, {0, *stored_.next_id(), {}, {}}, "line_hash");
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

  StoredHashes stored_;
  std::string sought_;
  ChainCheck check_;
  std::int64_t before_ = 0;
  std::string last_;
  std::unordered_map<std::string, std::string> last_of_;  // by device
};

}  // namespace

std::string hash_of(const Link& link, const std::string& canonical_text) {
  return sha256(fmt::format(
      "boltwitness line 1\ndevice {}\nfile {}\n{}{}", link.device_before, link.file_before,
      link.later.empty() ? std::string() : "later " + link.later + '\n', canonical_text));
}

HashChain::HashChain(SQLite::Database& database) : database_(database) {}
HashChain::~HashChain() = default;

void HashChain::open(const std::string& id) {
  if (!opening_) {
    opening_ = std::make_unique<SQLite::Statement>(database_, R"(
        INSERT INTO line_hash (entry_id, device_before, file_before, given_later, hash)
        VALUES (?, '', '', '', ''))");
  }
  opening_->reset();
  opening_->bindNoCopy(1, id);
  opening_->exec();
}

void HashChain::close(const std::string& id, const std::string& device) {
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  if (!last_) last_ = hash_before(database_, "");
  const Link link{device == device_of_last_ ? *last_ : hash_before(database_, device), *last_, ""};
  const auto hash = hash_of(link, lines_->of(id));
  close_as(id, link, hash);
  last_ = hash;
  device_of_last_ = device;
}

void HashChain::close_as(const std::string& id, const Link& link, const std::string& hash) {
  if (!closing_) {
    closing_ = std::make_unique<SQLite::Statement>(database_, R"(
        UPDATE line_hash SET device_before = ?, file_before = ?, given_later = ?, hash = ?
        WHERE entry_id = ?)");
  }
  closing_->reset();
  closing_->bindNoCopy(1, link.device_before);
  closing_->bindNoCopy(2, link.file_before);
  closing_->bindNoCopy(3, link.later);
  closing_->bindNoCopy(4, hash);
  closing_->bindNoCopy(5, id);
  closing_->exec();
}

void chain_all_lines(SQLite::Database& database) {
  const auto now = database.execAndGet("SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now')").getString();
  HashChain chain(database);
  std::string last;
  std::unordered_map<std::string, std::string> last_of;
  CanonicalLines(database).for_each(
      [&](const CanonicalLines::Line& line) {
        auto& of_device = last_of[line.device];
        const Link link{of_device, last, now};
        last = of_device = hash_of(link, line.text);
        chain.open(line.id);
        chain.close_as(line.id, link, last);
      },
      [](const std::string&, const std::string&) {});
}

ChainCheck check_chain(SQLite::Database& database, const std::string& sought) {
  Checking checking(database, sought);
  CanonicalLines(database).for_each(
      [&](const CanonicalLines::Line& line) { checking.line(line); },
      [&](const std::string& table, const std::string& id) { checking.row_of_none(table, id); });
  return checking.done();
}

std::string last_hash(SQLite::Database& database) { return hash_before(database, ""); }

}  // namespace logbook
