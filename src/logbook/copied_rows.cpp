#include "logbook/copied_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sqlite3.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>

#include "failure/failure.h"
#include "logbook/hash_chain.h"
#include "logbook/logbook_error.h"
#include "logbook/photograph_bytes.h"
#include "logbook/rows/content_tables.h"
#include "logbook/schema.h"
#include "logbook/signature.h"
#include "quantity/number_text.h"

namespace logbook {
namespace {

using failure::InputError;
using record::ColumnValue;

std::vector<std::string> quoted_names(const ContentTable& table) {
  std::vector<std::string> names;
  for (const auto& column : table.columns) names.push_back(quoted_name(column.name));
  return names;
}

ColumnValue value_of(const SQLite::Column& column) {
  if (column.isNull()) return std::monostate();
  if (column.isInteger()) return column.getInt64();
  if (column.isFloat()) return column.getDouble();
  return column.getString();
}

// The rows of one table, entry by entry.
class RowsToCopy {
 public:
  RowsToCopy(SQLite::Database& database, ContentTable table)
      : table_(std::move(table)), row_(database, sql()) {
    step();
  }

  // The rows of this line, whose id is higher than that of the one before. LogbookError (Damaged)
  // for rows before it that belong to no line.
  void take(record::StoredLine& line) {
    if (is_there_ && id_ < line.id) refuse();
    if (!is_there_ || id_ != line.id) return;
    auto& rows = line.tables.emplace_back(record::StoredTable{table_.name, {}}).rows;
    for (; is_there_ && id_ == line.id; step()) {
      auto& stored = rows.emplace_back();
      for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        stored.emplace_back(table_.columns[i].name,
                            value_of(row_.getColumn(static_cast<int>(i) + 1)));
      }
    }
  }

  void end() const {
    if (is_there_) refuse();
  }

 private:
  [[nodiscard]] std::string sql() const {
    std::vector<std::string> key;
    for (const auto& column : table_.key) key.push_back(quoted_name(column));
    auto selected = quoted_names(table_);
    selected.insert(selected.begin(), "entry_id");
    return fmt::format("SELECT {} FROM {} ORDER BY {}", fmt::join(selected, ", "),
                       quoted_name(table_.name), fmt::join(key, ", "));
  }

  void step() {
    is_there_ = row_.executeStep();
    if (is_there_) id_ = row_.getColumn(0).getString();
  }

  [[noreturn]] void refuse() const {
    throw LogbookError(LogbookError::Kind::Damaged,
                       fmt::format("rows of {} belong to a line {} that is not there; go back to "
                                   "a copy",
                                   table_.name, quantity::quoted(id_)));
  }

  ContentTable table_;
  SQLite::Statement row_;
  bool is_there_ = false;
  std::string id_;
};

// And their hashes.
class HashesToCopy {
 public:
  explicit HashesToCopy(SQLite::Database& database)
      : row_(database, R"(
            SELECT entry_id, device_before, file_before, given_later, hash
            FROM line_hash ORDER BY entry_id)") {
    is_there_ = row_.executeStep();
  }

  void take(record::StoredLine& line) {
    const auto text = [&](int column) { return row_.getColumn(column).getString(); };
    while (is_there_ && text(0) < line.id) is_there_ = row_.executeStep();
    if (is_there_ && text(0) == line.id) line.hash = {text(1), text(2), text(3), text(4)};
  }

 private:
  SQLite::Statement row_;
  bool is_there_ = false;
};

std::vector<record::StoredSignature> read_signatures(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT line_id, public_key, by_whom, signed_at, signature FROM signature
      ORDER BY line_id, public_key, signed_at, by_whom)");
  const auto text = [&](int column) { return row.getColumn(column).getString(); };
  std::vector<record::StoredSignature> signatures;
  while (row.executeStep()) {
    signatures.push_back({text(0), text(1), text(2), text(3), text(4)});
  }
  return signatures;
}

bool fits(const ColumnValue& value, const std::string& type) {
  if (std::holds_alternative<std::monostate>(value)) return true;
  if (std::holds_alternative<std::string>(value)) return type == "TEXT";
  if (std::holds_alternative<double>(value)) return type == "REAL";
  return type == "INTEGER" || type == "REAL";
}

std::string_view expected(const std::string& type) {
  return type == "TEXT" ? "a text" : type == "INTEGER" ? "a whole number" : "a number";
}

// Puts the values in the order of the table's columns.
std::vector<const ColumnValue*> in_order(const ContentTable& table, const record::StoredRow& row,
                                         const std::string& place) {
  std::vector<const ColumnValue*> values;
  for (const auto& column : table.columns) {
    const auto found =
        std::ranges::find_if(row, [&](const auto& cell) { return cell.first == column.name; });
    if (found == row.end()) {
      throw InputError(fmt::format("{}: \"{}\" is missing; expected {} or null", place, column.name,
                                   expected(column.type)));
    }
    if (!fits(found->second, column.type)) {
      throw InputError(
          fmt::format("{}/{}: expected {} here", place, column.name, expected(column.type)));
    }
    values.push_back(&found->second);
  }
  for (const auto& cell : row) {
    if (std::ranges::none_of(table.columns,
                             [&](const auto& column) { return column.name == cell.first; })) {
      throw InputError(fmt::format("{}: nothing is known of {} in {}; check its spelling", place,
                                   quantity::quoted(cell.first), table.name));
    }
  }
  return values;
}

void bind(SQLite::Statement& statement, int index, const ColumnValue& value) {
  if (const auto* text = std::get_if<std::string>(&value)) {
    statement.bind(index, *text);
  } else if (const auto* number = std::get_if<double>(&value)) {
    statement.bind(index, *number);
  } else if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    statement.bind(index, *whole);
  } else {
    statement.bind(index);
  }
}

// Runs a statement once; what the schema refuses is told with the place in the copy.
void insert_at(SQLite::Statement& statement, const std::string& place) {
  try {
    statement.exec();
  } catch (const SQLite::Exception& error) {
    if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
    throw InputError(fmt::format("{}: the logbook refuses this ({})", place, error.what()));
  }
  statement.reset();
}

// One table of the schema with the statement that fills it.
class Inserter {
 public:
  Inserter(SQLite::Database& database, ContentTable table)
      : table_(std::move(table)), statement_(database, sql()) {}

  void insert(const std::string& id, const record::StoredRow& row, const std::string& place) {
    const auto values = in_order(table_, row, place);
    statement_.bind(1, id);
    for (std::size_t i = 0; i < values.size(); ++i) {
      bind(statement_, static_cast<int>(i) + 2, *values[i]);
    }
    insert_at(statement_, place);
  }

 private:
  [[nodiscard]] std::string sql() const {
    auto names = quoted_names(table_);
    names.insert(names.begin(), "entry_id");
    const std::vector<std::string> values(names.size(), "?");
    return fmt::format("INSERT INTO {} ({}) VALUES ({})", quoted_name(table_.name),
                       fmt::join(names, ", "), fmt::join(values, ", "));
  }

  ContentTable table_;
  SQLite::Statement statement_;
};

using Inserters = std::unordered_map<std::string, std::unique_ptr<Inserter>>;

Inserters inserters_for(SQLite::Database& database) {
  Inserters inserters;
  for (auto& table : content_tables(database)) {
    const auto name = table.name;
    inserters.emplace(name, std::make_unique<Inserter>(database, std::move(table)));
  }
  return inserters;
}

std::set<std::string> known_kinds(SQLite::Database& database) {
  std::set<std::string> kinds;
  SQLite::Statement row(database, "SELECT kind FROM entry_kind");
  while (row.executeStep()) kinds.insert(row.getColumn(0).getString());
  return kinds;
}

void insert_stored_rows(const record::StoredLine& line, const std::string& place,
                        const Inserters& inserters) {
  for (const auto& table : line.tables) {
    const auto inserter = inserters.find(table.name);
    if (inserter == inserters.end()) {
      throw InputError(fmt::format("{}/rows: a logbook of this version has no table {}", place,
                                   quantity::quoted(table.name)));
    }
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      inserter->second->insert(line.id, table.rows[row],
                               fmt::format("{}/rows/{}/{}", place, table.name, row));
    }
  }
}

// A copy in which something was changed says so itself.
void refuse_unless_it_fits(SQLite::Database& database, const record::StoredSignature& signature,
                           std::size_t place) {
  SQLite::Statement line(database, R"(
      SELECT e.line, coalesce(h.hash, '')
      FROM entry e LEFT JOIN line_hash h ON h.entry_id = e.id WHERE e.id = ?)");
  line.bind(1, signature.line_id);
  if (!line.executeStep()) {
    throw InputError(
        fmt::format("/signatures/{}/line_id: there is no line {}; the copy is not whole", place,
                    quantity::quoted(signature.line_id)));
  }
  if (signature_fits(line.getColumn(1).getString(), signature.by, signature.at,
                     signature.public_key, signature.signature)) {
    return;
  }
  throw InputError(fmt::format(
      "/signatures/{}: the signature of {} at line {} does not fit; the copy was changed after it "
      "was written; take it once more from its logbook",
      place, signature.by, line.getColumn(0).getInt64()));
}

void insert_signatures(SQLite::Database& database,
                       const std::vector<record::StoredSignature>& signatures) {
  if (signatures.empty()) return;
  SQLite::Statement row(database, R"(
      INSERT INTO signature (line_id, public_key, by_whom, signed_at, signature)
      VALUES (?, ?, ?, ?, ?))");
  for (std::size_t i = 0; i < signatures.size(); ++i) {
    const auto& each = signatures[i];
    refuse_unless_it_fits(database, each, i);
    row.bind(1, each.line_id);
    row.bind(2, each.public_key);
    row.bind(3, each.by);
    row.bind(4, each.at);
    row.bind(5, each.signature);
    insert_at(row, fmt::format("/signatures/{}", i));
  }
}

void close_line(HashChain& chain, const record::StoredLine& line, const std::string& place) {
  const auto& hash = *line.hash;
  try {
    chain.close_as(line.id, {hash.device_before, hash.file_before, hash.later}, hash.hash);
  } catch (const SQLite::Exception& error) {
    if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
    throw InputError(fmt::format("{}/chain/hash: {} is no hash; expected 64 hexadecimal digits",
                                 place, quantity::quoted(hash.hash)));
  }
}

}  // namespace

void read_copy(SQLite::Database& database, record::CopyTaker& taker,
               const std::function<void()>& line_taken) {
  const int schema = schema_version(database);
  std::vector<std::unique_ptr<RowsToCopy>> tables;
  for (auto& table : content_tables(database)) {
    tables.push_back(std::make_unique<RowsToCopy>(database, std::move(table)));
  }
  std::optional<HashesToCopy> hashes;
  if (schema >= record::kFirstSchemaWithHashes) hashes.emplace(database);
  SQLite::Statement row(database, R"(
      SELECT line, id, kind, by_whom, done_at, entered_at, device,
             EXISTS (SELECT 1 FROM strike WHERE struck_id = entry.id)
      FROM entry ORDER BY line)");
  const auto text = [&](int column) { return row.getColumn(column).getString(); };
  const auto signatures = schema >= record::kFirstSchemaWithSignatures
                              ? read_signatures(database)
                              : std::vector<record::StoredSignature>();
  const auto photographs = kept_photographs(database);
  const auto lines = database.execAndGet("SELECT count(*) FROM entry").getInt64();
  taker.begin({schema, lines, signatures.size(), photographs.size()});
  while (row.executeStep()) {
    record::StoredLine line{
        row.getColumn(0).getInt64(),    text(1), text(2),     text(3), text(4), text(5), text(6),
        row.getColumn(7).getInt() != 0, {},      std::nullopt};
    for (const auto& table : tables) table->take(line);
    if (hashes) hashes->take(line);
    taker.take(line);
    if (line_taken) line_taken();
  }
  for (const auto& table : tables) table->end();
  taker.end(signatures, photographs);
}

void insert_copy(SQLite::Database& database, const record::CopySource& copy,
                 const std::function<void(const record::StoredLine& line)>& line_written) {
  // A table may come before the one that it belongs to.
  database.exec("PRAGMA defer_foreign_keys = ON");
  const auto inserters = inserters_for(database);
  const auto kinds = known_kinds(database);
  HashChain chain(database);
  SQLite::Statement entry(database, R"(
      INSERT INTO entry (line, id, kind, by_whom, done_at, entered_at, device)
      VALUES (:line, :id, :kind, :by, :done_at, :entered_at, :device))");
  std::size_t number = 0;
  copy.each_line([&](const record::StoredLine& line) {
    const auto place = fmt::format("/lines/{}", number++);
    if (!kinds.contains(line.kind)) {
      throw InputError(fmt::format("{}/kind: {} is none of {}", place, quantity::quoted(line.kind),
                                   fmt::join(kinds, ", ")));
    }
    if (line.hash) chain.open(line.id);
    entry.bind(":line", line.line);
    entry.bind(":id", line.id);
    entry.bind(":kind", line.kind);
    entry.bind(":by", line.by);
    entry.bind(":done_at", line.done_at);
    entry.bind(":entered_at", line.entered_at);
    entry.bind(":device", line.device);
    insert_at(entry, place);
    insert_stored_rows(line, place, inserters);
    if (line.hash) close_line(chain, line, place);
    line_written(line);
  });
  if (copy.size().schema >= record::kFirstSchemaWithMerging) keep_ends(database);
  insert_signatures(database, copy.signatures());
}

}  // namespace logbook
