#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

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
//   later <what gave it, where it was not hashed as it was written; otherwise this row is not
//   there>
//
// each ended by a line feed, and then the line's canonical text (canonical_line.h). So the lines of
// each device are a chain of their own, which stays whole where the lines of two copies are put
// together, and each line also vouches for what the others had written when it came.
//
// What a line names is what its writer had before him, and all that came before that. Where the
// copies of two writers are put together (merging.h) no hash changes: the lines of each still name
// their own, with the other's between them. The two ends are then named by the line that is written
// next, their hashes rising and parted by a blank.

struct Link {
  std::string device_before;
  std::string file_before;
  std::string later;  // "schema 13" or, by programs between releases, the moment; or nothing
};

[[nodiscard]] std::string hash_of(const Link& link, const std::string& canonical_text);

// Binds lines as they are written, inside the transaction that is open.
class HashChain {
 public:
  explicit HashChain(SQLite::Database& database);
  ~HashChain();
  HashChain(const HashChain&) = delete;
  HashChain& operator=(const HashChain&) = delete;

  // Before the line with this id is written, and when all its rows are, in these tables. Nothing
  // joins it then.
  void open(const std::string& id);
  void close(const std::string& id, const std::string& device,
             const std::vector<const char*>& tables);

  // In place of close: the hash that a copy of the logbook gave, held against nothing.
  void close_as(const std::string& id, const Link& link, const std::string& hash);

 private:
  SQLite::Database& database_;
  std::unique_ptr<CanonicalLines> lines_;  // once one was needed
  std::unique_ptr<SQLite::Statement> opening_;
  std::unique_ptr<SQLite::Statement> closing_;
  std::optional<std::string> last_;  // what the next line comes after, and the device of that
  std::string device_of_last_;
};

// Gives every line its hash that has none, as what it was when it is done. For logbooks of before
// there were hashes.
void chain_all_lines(SQLite::Database& database);

// The hashes of the lines after which none is known to have come, in the order of the lines: that
// of the last line alone, but for a logbook of merged copies that nothing was written to since.
// Nothing where no line has a hash.
[[nodiscard]] std::vector<std::string> end_hashes(SQLite::Database& database);

// Looks for them among all lines and keeps them; where lines were put between others.
void keep_ends(SQLite::Database& database);

// Such hashes as a line names them that comes after all of them, and back.
[[nodiscard]] std::string as_before(std::vector<std::string> hashes);
[[nodiscard]] std::vector<std::string> hashes_in(const std::string& file_before);

}  // namespace logbook
