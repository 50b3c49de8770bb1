#include "logbook/canonical_line.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <bit>
#include <cstring>

namespace logbook {
namespace {

std::string canonical(const SQLite::Column& value) {
  if (value.isNull()) return "n";
  if (value.isInteger()) return fmt::format("i{}", value.getInt64());
  if (value.isFloat()) {
    const double number = value.getDouble();
    return fmt::format("r{:016x}", std::bit_cast<std::uint64_t>(number == 0.0 ? 0.0 : number));
  }
  const auto bytes = value.getString();
  return fmt::format("{}{}:{}", value.isBlob() ? 'b' : 't', bytes.size(), bytes);
}

std::string canonical_entry(SQLite::Statement& row) {
  // In the order of their names.
  return fmt::format("entry\nby_whom {}\ndevice {}\ndone_at {}\nentered_at {}\nid {}\nkind {}\n",
                     canonical(row.getColumn(3)), canonical(row.getColumn(2)),
                     canonical(row.getColumn(4)), canonical(row.getColumn(5)),
                     canonical(row.getColumn(1)), canonical(row.getColumn(6)));
}

// What a column holds where nothing was written into it.
std::string canonical_default(SQLite::Database& database, const ContentColumn& column) {
  if (column.default_value.empty()) return "n";
  SQLite::Statement value(database,
                          fmt::format("SELECT CAST({} AS {})", column.default_value, column.type));
  value.executeStep();
  return canonical(value.getColumn(0));
}

}  // namespace

// The rows of one table.
class CanonicalLines::Rows {
 public:
  Rows(SQLite::Database& database, const ContentTable& table) : name_(table.name) {
    auto columns = table.columns;
    std::ranges::sort(columns, {}, &ContentColumn::name);
    std::vector<std::string> selected = {"entry_id"};
    for (const auto& column : columns) {
      columns_.push_back({column.name, canonical_default(database, column)});
      selected.push_back(quoted_name(column.name));
    }
    sql_ = fmt::format("SELECT {} FROM {} ", fmt::join(selected, ", "), quoted_name(name_));
    of_one_ = std::make_unique<SQLite::Statement>(database, sql_ + "WHERE entry_id = ?");
  }

  [[nodiscard]] const std::string& name() const { return name_; }

  [[nodiscard]] std::string of(const std::string& id) {
    of_one_->reset();
    of_one_->bindNoCopy(1, id);
    std::vector<std::string> rows;
    while (of_one_->executeStep()) rows.push_back(row_of(*of_one_));
    of_one_->reset();
    return joined(rows);
  }

  void begin(SQLite::Database& database) {
    all_ = std::make_unique<SQLite::Statement>(database, sql_ + "ORDER BY entry_id");
    step();
  }

  // The id of the row that comes next; nothing behind the last.
  [[nodiscard]] const std::optional<std::string>& next_id() const { return next_id_; }

  void skip() { step(); }

  [[nodiscard]] std::string take(const std::string& id) {
    std::vector<std::string> rows;
    for (; next_id_ && *next_id_ == id; step()) rows.push_back(row_of(*all_));
    return joined(rows);
  }

 private:
  struct Column {
    std::string name;
    std::string untouched;
  };

  void step() {
    if (all_->executeStep()) {
      next_id_ = all_->getColumn(0).getString();
    } else {
      next_id_.reset();
    }
  }

  [[nodiscard]] std::string row_of(SQLite::Statement& row) const {
    std::string text = name_ + '\n';
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const auto value = canonical(row.getColumn(static_cast<int>(i) + 1));
      if (value == columns_[i].untouched) continue;
      text += columns_[i].name;
      text += ' ';
      text += value;
      text += '\n';
    }
    return text;
  }

  [[nodiscard]] static std::string joined(std::vector<std::string>& rows) {
    std::ranges::sort(rows);
    std::string text;
    for (const auto& row : rows) text += row;
    return text;
  }

  std::string name_;
  std::vector<Column> columns_;  // by name
  std::string sql_;
  std::unique_ptr<SQLite::Statement> of_one_;
  std::unique_ptr<SQLite::Statement> all_;
  std::optional<std::string> next_id_;
};

CanonicalLines::CanonicalLines(SQLite::Database& database) : database_(database) {
  for (const auto& table : content_tables(database)) {
    tables_.push_back(std::make_unique<Rows>(database, table));
  }
}

CanonicalLines::~CanonicalLines() = default;

std::string CanonicalLines::of(const std::string& id) {
  SQLite::Statement row(database_,
                        fmt::format("SELECT {} FROM entry WHERE id = ?", kCanonicalEntry));
  row.bind(1, id);
  row.executeStep();
  auto text = canonical_entry(row);
  for (const auto& table : tables_) text += table->of(id);
  return text;
}

void CanonicalLines::for_each(
    const std::function<void(const Line&)>& visit,
    const std::function<void(const std::string&, const std::string&)>& row_of_none) {
  for (const auto& table : tables_) table->begin(database_);
  SQLite::Statement row(database_,
                        fmt::format("SELECT {} FROM entry ORDER BY id", kCanonicalEntry));
  while (row.executeStep()) {
    Line line{row.getColumn(0).getInt64(), row.getColumn(1).getString(),
              row.getColumn(2).getString(), canonical_entry(row)};
    for (const auto& table : tables_) {
      for (; table->next_id() && *table->next_id() < line.id; table->skip()) {
        row_of_none(table->name(), *table->next_id());
      }
      line.text += table->take(line.id);
    }
    visit(line);
  }
  for (const auto& table : tables_) {
    for (; table->next_id(); table->skip()) row_of_none(table->name(), *table->next_id());
  }
}

}  // namespace logbook
