#include "logbook/canonical_line.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/compile.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sqlite3.h>

#include <algorithm>
#include <bit>
#include <iterator>
#include <set>
#include <string_view>
#include <utility>

namespace logbook {
namespace {

constexpr const char* kNull = "n";

void add_canonical(std::string& text, const SQLite::Column& value) {
  // Asked once: this is called for every cell of the file.
  const auto type = value.getType();
  if (type == SQLITE_NULL) {
    text += kNull;
  } else if (type == SQLITE_INTEGER) {
    fmt::format_to(std::back_inserter(text), FMT_COMPILE("i{}"), value.getInt64());
  } else if (type == SQLITE_FLOAT) {
    const double number = value.getDouble();
    fmt::format_to(std::back_inserter(text), FMT_COMPILE("r{:016x}"),
                   std::bit_cast<std::uint64_t>(number == 0.0 ? 0.0 : number));
  } else {
    const bool is_text = type == SQLITE_TEXT;
    const auto* bytes = static_cast<const char*>(is_text ? value.getText() : value.getBlob());
    const auto size = static_cast<std::size_t>(value.getBytes());
    fmt::format_to(std::back_inserter(text), FMT_COMPILE("{}{}:"), is_text ? 't' : 'b', size);
    if (size > 0) text.append(bytes, size);
  }
}

void add_canonical_entry(std::string& text, SQLite::Statement& row) {
  // In the order of their names.
  constexpr std::pair<const char*, int> kColumns[] = {{"entry\nby_whom ", 3}, {"\ndevice ", 2},
                                                      {"\ndone_at ", 4},      {"\nentered_at ", 5},
                                                      {"\nid ", 1},           {"\nkind ", 6}};
  for (const auto& [name, column] : kColumns) {
    text += name;
    add_canonical(text, row.getColumn(column));
  }
  text += '\n';
}

}  // namespace

// The rows of one table. Nothing is asked of the database for a table that no line was looked up
// in.
class CanonicalLines::Rows {
 public:
  Rows(SQLite::Database& database, ContentTable table)
      : database_(database), table_(std::move(table)) {
    std::ranges::sort(table_.columns, {}, &ContentColumn::name);
  }

  void add(std::string& text, const std::string& id) {
    if (!of_one_) of_one_ = selected("WHERE entry_id = ?");
    of_one_->reset();
    of_one_->bindNoCopy(1, id);
    begin_rows(text);
    while (of_one_->executeStep()) add_row(text, *of_one_);
    end_rows(text);
    of_one_->reset();
  }

  void begin() {
    all_ = selected("ORDER BY entry_id");
    step();
  }

  // The id of the row that comes next; nothing behind the last.
  [[nodiscard]] const std::string* next_id() const { return is_there_ ? &next_id_ : nullptr; }

  void skip() { step(); }

  // Whether there were any.
  bool take(std::string& text, const std::string& id) {
    if (!is_there_ || next_id_ != id) return false;
    begin_rows(text);
    for (; is_there_ && next_id_ == id; step()) add_row(text, *all_);
    end_rows(text);
    return true;
  }

 private:
  [[nodiscard]] std::unique_ptr<SQLite::Statement> selected(const char* which) {
    std::vector<std::string> columns = {"entry_id"};
    for (const auto& column : table_.columns) columns.push_back(quoted_name(column.name));
    find_untouched();
    return std::make_unique<SQLite::Statement>(
        database_, fmt::format("SELECT {} FROM {} {}", fmt::join(columns, ", "),
                               quoted_name(table_.name), which));
  }

  // What each column holds where nothing was written into it.
  void find_untouched() {
    if (!untouched_.empty()) return;
    untouched_.assign(table_.columns.size(), kNull);
    std::vector<std::string> defaults;
    for (const auto& column : table_.columns) {
      if (column.default_value.empty()) continue;
      defaults.push_back(fmt::format("CAST({} AS {})", column.default_value, column.type));
    }
    if (defaults.empty()) return;
    SQLite::Statement values(database_, fmt::format("SELECT {}", fmt::join(defaults, ", ")));
    values.executeStep();
    int given = 0;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      if (table_.columns[i].default_value.empty()) continue;
      untouched_[i].clear();
      add_canonical(untouched_[i], values.getColumn(given++));
    }
  }

  void step() {
    is_there_ = all_->executeStep();
    if (!is_there_) return;
    const auto id = all_->getColumn(0);
    next_id_.assign(id.getText(), static_cast<std::size_t>(id.getBytes()));
  }

  void begin_rows(const std::string& text) { begins_.assign(1, text.size()); }

  void add_row(std::string& text, SQLite::Statement& row) {
    text += table_.name;
    text += '\n';
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      const auto cell = row.getColumn(static_cast<int>(i) + 1);
      if (cell.isNull() && untouched_[i] == kNull) continue;  // as most cells are
      const auto begin = text.size();
      text += table_.columns[i].name;
      text += ' ';
      const auto value = text.size();
      add_canonical(text, cell);
      if (std::string_view(text).substr(value) == untouched_[i]) {
        text.resize(begin);
      } else {
        text += '\n';
      }
    }
    begins_.push_back(text.size());
  }

  // By rising text, which most of them are as they come.
  void end_rows(std::string& text) const {
    if (begins_.size() <= 2) return;
    std::vector<std::string_view> rows;
    for (std::size_t i = 1; i < begins_.size(); ++i) {
      rows.push_back(std::string_view(text).substr(begins_[i - 1], begins_[i] - begins_[i - 1]));
    }
    if (std::ranges::is_sorted(rows)) return;
    std::ranges::sort(rows);
    std::string sorted;
    for (const auto row : rows) sorted += row;
    text.replace(begins_.front(), std::string::npos, sorted);
  }

  SQLite::Database& database_;
  ContentTable table_;                  // its columns by name
  std::vector<std::string> untouched_;  // for each column
  std::unique_ptr<SQLite::Statement> of_one_;
  std::unique_ptr<SQLite::Statement> all_;
  std::string next_id_;
  bool is_there_ = false;
  std::vector<std::size_t> begins_;  // of the rows of a line in its text, and where the last ends
};

CanonicalLines::CanonicalLines(SQLite::Database& database) : database_(database) {}
CanonicalLines::~CanonicalLines() = default;

CanonicalLines::Rows& CanonicalLines::table(const std::string& name) {
  auto& rows = tables_[name];
  if (!rows) rows = std::make_unique<Rows>(database_, content_table(database_, name));
  return *rows;
}

void CanonicalLines::find_all_tables() {
  if (std::exchange(has_all_tables_, true)) return;
  for (auto& table : content_tables(database_)) {
    auto& rows = tables_[table.name];
    if (!rows) rows = std::make_unique<Rows>(database_, std::move(table));
  }
}

void CanonicalLines::begin_entry(std::string& text, const std::string& id) {
  if (!entry_) {
    entry_ = std::make_unique<SQLite::Statement>(
        database_, fmt::format("SELECT {} FROM entry WHERE id = ?", kCanonicalEntry));
  }
  entry_->reset();
  entry_->bindNoCopy(1, id);
  entry_->executeStep();
  add_canonical_entry(text, *entry_);
  entry_->reset();
}

std::string CanonicalLines::of(const std::string& id) {
  find_all_tables();
  std::string text;
  begin_entry(text, id);
  for (const auto& [name, rows] : tables_) rows->add(text, id);
  return text;
}

std::string CanonicalLines::of(const std::string& id, const std::vector<const char*>& tables) {
  std::string text;
  begin_entry(text, id);
  for (const auto& name : std::set<std::string>(tables.begin(), tables.end())) {
    table(name).add(text, id);
  }
  return text;
}

void CanonicalLines::for_each(
    const std::function<void(const Line&)>& visit,
    const std::function<void(const std::string&, const std::string&)>& row_of_none) {
  find_all_tables();
  for (const auto& [name, rows] : tables_) rows->begin();
  SQLite::Statement row(database_,
                        fmt::format("SELECT {} FROM entry ORDER BY id", kCanonicalEntry));
  Line line;
  while (row.executeStep()) {
    line.line = row.getColumn(0).getInt64();
    line.id = row.getColumn(1).getString();
    line.device = row.getColumn(2).getString();
    line.kind = row.getColumn(6).getString();
    line.text.clear();
    line.tables.clear();
    add_canonical_entry(line.text, row);
    for (const auto& [name, rows] : tables_) {
      for (; rows->next_id() && *rows->next_id() < line.id; rows->skip()) {
        row_of_none(name, *rows->next_id());
      }
      if (rows->take(line.text, line.id)) line.tables.emplace_back(name);
    }
    visit(line);
  }
  for (const auto& [name, rows] : tables_) {
    for (; rows->next_id(); rows->skip()) row_of_none(name, *rows->next_id());
  }
}

}  // namespace logbook
