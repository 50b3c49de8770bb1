#include "logbook/hash_chain.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include "logbook/canonical_line.h"
#include "logbook/digest.h"
#include "logbook/schema.h"
#include "logbook/set_aside.h"
#include "record/logbook_copy.h"

namespace logbook {
namespace {

// What stands for the moment in a line that got its hash later: the same in every copy, whenever it
// was brought up to date, so that two copies of one logbook give a line one hash.
constexpr const char* kGivenByStep = "schema 13";

// The hash of the line of this device that comes last, or of any.
std::string hash_before(SQLite::Database& database, const std::string& device) {
  SQLite::Statement row(database, R"(
      SELECT h.hash FROM entry e JOIN line_hash h ON h.entry_id = e.id
      WHERE h.hash <> '' AND (:device = '' OR e.device = :device)
      ORDER BY e.line DESC LIMIT 1)");
  row.bind(":device", device);
  return row.executeStep() ? row.getColumn(0).getString() : std::string();
}

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

void HashChain::close(const std::string& id, const std::string& device,
                      const std::vector<const char*>& tables) {
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  bool joins_ends = false;
  if (!last_) {
    const auto ends = end_hashes(database_);
    last_ = as_before(ends);
    joins_ends = ends.size() > 1;
  }
  const Link link{device == device_of_last_ ? *last_ : hash_before(database_, device), *last_, ""};
  const auto hash = hash_of(link, lines_->of(id, tables));
  close_as(id, link, hash);
  if (joins_ends) {
    // It names them all, so that it is the only one from here on. The trigger would look for each
    // of them in what it names, which for very many takes the square of them.
    SetAside guard(database_, {"chain_end_never_removed"});
    database_.exec("DELETE FROM chain_end");
    guard.put_back();
  }
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
  HashChain chain(database);
  std::string last;
  std::unordered_map<std::string, std::string> last_of;
  CanonicalLines(database).for_each(
      [&](const CanonicalLines::Line& line) {
        auto& of_device = last_of[line.device];
        const Link link{of_device, last, kGivenByStep};
        last = of_device = hash_of(link, line.text);
        chain.open(line.id);
        chain.close_as(line.id, link, last);
      },
      [](const std::string&, const std::string&) {});
}

std::vector<std::string> end_hashes(SQLite::Database& database) {
  std::vector<std::string> hashes;
  if (schema_version(database) >= record::kFirstSchemaWithMerging) {
    SQLite::Statement row(database, R"(
        SELECT h.hash FROM chain_end c JOIN line_hash h ON h.entry_id = c.line_id
        ORDER BY c.line_id)");
    while (row.executeStep()) hashes.push_back(row.getColumn(0).getString());
  }
  if (auto last = hash_before(database, ""); !last.empty()) hashes.push_back(std::move(last));
  return hashes;
}

void keep_ends(SQLite::Database& database) {
  std::vector<std::string> ids;
  std::unordered_set<std::string> named;  // by later lines, and not come to yet
  SQLite::Statement row(database,
                        "SELECT entry_id, hash, file_before FROM line_hash ORDER BY entry_id DESC");
  while (row.executeStep()) {
    if (named.erase(row.getColumn(1).getString()) == 0) {
      ids.push_back(row.getColumn(0).getString());
    }
    for (auto& hash : hashes_in(row.getColumn(2).getString())) named.insert(std::move(hash));
  }
  row.reset();
  SetAside guards(database, {"chain_end_never_added", "chain_end_never_removed"});
  database.exec("DELETE FROM chain_end");
  SQLite::Statement end(database, "INSERT INTO chain_end (line_id) VALUES (?)");
  for (std::size_t i = 1; i < ids.size(); ++i) {  // without the last line, which always is one
    end.reset();
    end.bind(1, ids[i]);
    end.exec();
  }
  end.reset();
  guards.put_back();
}

std::string as_before(std::vector<std::string> hashes) {
  std::ranges::sort(hashes);
  return fmt::format("{}", fmt::join(hashes, " "));
}

std::vector<std::string> hashes_in(const std::string& file_before) {
  std::vector<std::string> hashes;
  for (std::size_t from = 0; from < file_before.size();) {
    const auto blank = std::min(file_before.find(' ', from), file_before.size());
    hashes.push_back(file_before.substr(from, blank - from));
    from = blank + 1;
  }
  return hashes;
}

}  // namespace logbook
