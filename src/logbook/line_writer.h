#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <set>
#include <string>

#include "logbook/hash_chain.h"
#include "logbook/rows/row_writer.h"
#include "record/content.h"
#include "record/entry.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

struct Writer;

// Lines that were written one after the other.
struct LinesWritten {
  std::size_t count = 0;
  std::string first_id;
  std::set<std::size_t> kinds;  // their places in the list of kinds
};

// Writes lines behind the last one of a logbook, each with its rows and its hash, inside the
// transaction that is open. What comes before them is looked up once: nobody else writes meanwhile.
class LineWriter {
 public:
  explicit LineWriter(SQLite::Database& database);
  ~LineWriter();
  LineWriter(const LineWriter&) = delete;
  LineWriter& operator=(const LineWriter&) = delete;

  record::Stamp append(const Writer& writer, const record::Content& content);

  // Those since they were last taken.
  [[nodiscard]] const LinesWritten& written() const { return written_; }
  [[nodiscard]] LinesWritten take_written();

 private:
  void find_last();

  SQLite::Database& database_;
  HashChain chain_;
  RowWriter rows_;
  std::unique_ptr<SQLite::Statement> entry_;
  bool is_last_known_ = false;
  std::string last_id_;
  std::int64_t last_line_ = 0;
  LinesWritten written_;
};

}  // namespace logbook
