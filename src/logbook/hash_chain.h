#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "record/logbook_copy.h"
#include "record/verification.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

class CanonicalLines;

// Every line is bound to those before it, so that none of them can be changed, taken out, put in or
// moved without its showing. Its hash is the SHA-256 of
//
//   boltwitness line 1
//   device <hash of the line before it by the same device; nothing where it is that one's first>
//   file <hash of the line before it in the file; nothing where it is the first>
//   later <when, where it was not hashed as it was written; otherwise this row is not there>
//
// each ended by a line feed, and then the line's canonical text (canonical_line.h). So the lines of
// each device are a chain of their own, which stays whole where the lines of two copies are put
// together, and each line also vouches for what the others had written when it came.

struct Link {
  std::string device_before;
  std::string file_before;
  std::string later;  // the moment as write_utc writes it, or nothing
};

[[nodiscard]] std::string hash_of(const Link& link, const std::string& canonical_text);

// Binds lines as they are written, inside the transaction that is open.
class HashChain {
 public:
  explicit HashChain(SQLite::Database& database);
  ~HashChain();
  HashChain(const HashChain&) = delete;
  HashChain& operator=(const HashChain&) = delete;

  // Before the line with this id is written, and when all its rows are. Nothing joins it then.
  void open(const std::string& id);
  void close(const std::string& id, const std::string& device);

  // In place of close: the hash that a copy of the logbook gave, held against nothing.
  void close_as(const std::string& id, const Link& link, const std::string& hash);

 private:
  SQLite::Database& database_;
  std::unique_ptr<CanonicalLines> lines_;  // once one was needed
  std::unique_ptr<SQLite::Statement> opening_;
  std::unique_ptr<SQLite::Statement> closing_;
  std::optional<std::string> last_;  // hash of the line closed last, and its device
  std::string device_of_last_;
};

// Gives every line its hash that has none, as what it was when it is done. For logbooks of before
// there were hashes.
void chain_all_lines(SQLite::Database& database);

// Recomputes the hash of every line. `sought` is a hash or the beginning of one, in lower case.
[[nodiscard]] record::ChainCheck check_chain(SQLite::Database& database,
                                             const std::string& sought = "");

// The hash of the last line.
[[nodiscard]] std::string last_hash(SQLite::Database& database);

}  // namespace logbook
