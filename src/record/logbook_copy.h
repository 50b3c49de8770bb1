#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace record {

// A logbook as its file holds it, row by row, for a copy that loses nothing: struck lines, ids and
// times are all there. It knows neither kinds nor columns by name, so that a new one needs nothing
// here.

// The value of one column; nothing stands for NULL.
using ColumnValue = std::variant<std::monostate, std::int64_t, double, std::string>;

using StoredRow = std::vector<std::pair<std::string, ColumnValue>>;  // by column, in their order

// The rows of one line in one table, without the id of the line.
struct StoredTable {
  std::string name;
  std::vector<StoredRow> rows;
};

// The first version of the schema whose lines have hashes.
inline constexpr int kFirstSchemaWithHashes = 13;

// And the first that holds signatures.
inline constexpr int kFirstSchemaWithSignatures = 14;

// And the first that holds copies that were merged.
inline constexpr int kFirstSchemaWithMerging = 15;

// And the first that holds photographs.
inline constexpr int kFirstSchemaWithPhotographs = 16;

// What binds a line to those before it, as it is stored; see logbook/hash_chain.h.
struct StoredHash {
  std::string device_before;
  std::string file_before;
  std::string later;
  std::string hash;
};

struct StoredLine {
  std::int64_t line = 0;
  std::string id;
  std::string kind;
  std::string by;
  std::string done_at;  // both times as write_utc writes them
  std::string entered_at;
  std::string device;
  bool struck = false;
  std::vector<StoredTable> tables;  // by name
  std::optional<StoredHash> hash;   // there where, and only where, the schema has hashes
};

struct StoredSignature {
  std::string line_id;
  std::string public_key;
  std::string by;
  std::string at;
  std::string signature;
};

// How much of each comes.
struct CopySize {
  int schema = 0;  // as in LogbookCopy
  std::int64_t lines = 0;
  std::size_t signatures = 0;
  std::size_t photographs = 0;
};

// Takes a copy piece by piece, in this order, so that the whole is never held.
class CopyTaker {
 public:
  CopyTaker() = default;
  CopyTaker(const CopyTaker&) = delete;
  CopyTaker& operator=(const CopyTaker&) = delete;
  virtual ~CopyTaker() = default;

  virtual void begin(const CopySize& size) = 0;
  virtual void take(const StoredLine& line) = 0;  // by rising number
  // `photographs` as in LogbookCopy.
  virtual void end(const std::vector<StoredSignature>& signatures,
                   const std::vector<std::string>& photographs) = 0;
};

// A copy that is gone through line by line, as often as is asked, so that the whole is never held
// either. What it hands over is the same each time.
class CopySource {
 public:
  CopySource() = default;
  CopySource(const CopySource&) = delete;
  CopySource& operator=(const CopySource&) = delete;
  virtual ~CopySource() = default;

  // How much of each there is, and its schema.
  [[nodiscard]] virtual CopySize size() const = 0;
  // By rising number.
  virtual void each_line(const std::function<void(const StoredLine& line)>& take) const = 0;
  // Both as in LogbookCopy.
  [[nodiscard]] virtual const std::vector<StoredSignature>& signatures() const = 0;
  [[nodiscard]] virtual const std::vector<std::string>& photographs() const = 0;
  // The bytes of the photographs, one after the other, in their order.
  virtual void each_photograph(const std::function<void(std::string_view bytes)>& take) const = 0;
};

struct LogbookCopy {
  int schema = 0;                                // version of the schema that the rows fit
  std::vector<StoredLine> lines;                 // in the order of their numbers
  std::vector<StoredSignature> signatures = {};  // by line id and key
  // SHA-256 of the photographs that go with it, rising. Their bytes are handed over one by one
  // beside the copy, since all of them together may be more than is held at once.
  std::vector<std::string> photographs = {};
};

// Takes all of it at once.
class WholeCopy : public CopyTaker {
 public:
  void begin(const CopySize& size) override { copy_.schema = size.schema; }
  void take(const StoredLine& line) override { copy_.lines.push_back(line); }
  void end(const std::vector<StoredSignature>& signatures,
           const std::vector<std::string>& photographs) override {
    copy_.signatures = signatures;
    copy_.photographs = photographs;
  }

  [[nodiscard]] LogbookCopy taken() && { return std::move(copy_); }

 private:
  LogbookCopy copy_;
};

}  // namespace record
