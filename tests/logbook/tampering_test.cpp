// A single byte of any cell of any table, whatever it becomes, is noticed, and of what a line says
// the line is named: tried at random, so that no list of columns can leave one out.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <set>

#include "logbook/verification.h"
#include "support/catch.h"
#include "support/every_deed.h"
#include "support/torture.h"
#include "support/trial.h"

namespace tampering_test {

namespace {

// A logbook with rows in every table, of copies that were merged last, its triggers out of the way.
class Unguarded {
 public:
  Unguarded() {
    const auto path = trial_.folder().file("p4.bolts");
    const auto apart = trial_.folder().file("phone.bolts");
    trial_.environment["BOLTWITNESS_LOG"] = path;
    trial_.environment["XDG_DATA_HOME"] = trial_.folder().file("own");
    for (const auto& deed : every_deed(trial_.folder(), path)) {
      trial_.typed = deed.typed;
      trial_.done(deed.command);
    }
    trial_.typed.clear();
    for (const auto* command :
         {"out J02/2 --damaged-thread hole", "settle damaged-thread:J02/2 --as repair --why torn",
          "settle damaged-thread:J02/2 --done 'insert fitted'",
          "joint J09 --holds lid --size M8 --grade 8.8 --count 2 --after J01 --covers J02 "
          "--recheck '7 days'",
          "joint J01/2 --spec '20 N·m' --source 'drawing 8'"}) {
      trial_.done(command);
    }
    std::filesystem::copy_file(path, apart);
    trial_.done("fluid wax --drained '1 L'");
    trial_.device.back() = '2';
    trial_.done("fluid oil --drained '1 L' --log " + apart);
    trial_.done("merge " + apart);
    REQUIRE(logbook::verify(path).fits());
    database = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE);
    database->exec("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF");
    for (const auto& name : texts("SELECT name FROM sqlite_schema WHERE type = 'trigger'")) {
      database->exec("DROP TRIGGER " + name);
    }
    for (const auto& table : texts("SELECT name FROM sqlite_schema WHERE type = 'table'")) {
      for (const auto& column : texts("SELECT name FROM pragma_table_info('" + table + "')")) {
        columns.emplace_back(table, column);
      }
      if (texts("SELECT 'x' FROM " + table + " LIMIT 1").empty()) empty_tables.insert(table);
    }
  }

  [[nodiscard]] std::vector<std::string> texts(const std::string& sql) const {
    SQLite::Statement row(*database, sql);
    std::vector<std::string> found;
    while (row.executeStep()) found.push_back(row.getColumn(0).getString());
    return found;
  }

  std::unique_ptr<SQLite::Database> database;
  std::vector<std::pair<std::string, std::string>> columns;  // table, column
  std::set<std::string> empty_tables;

 private:
  Trial trial_;
};

// One cell, found again by the key of its row.
struct Cell {
  std::string table;
  std::string column;
  std::string where;
};

class Tampering {
 public:
  explicit Tampering(const Unguarded& logbook) : logbook_(logbook) {}

  // Any row of that column.
  Cell cell_of(const std::string& table, const std::string& column) {
    std::string key;
    for (const auto& name :
         logbook_.texts("SELECT name FROM pragma_table_info('" + table + "') WHERE pk > 0")) {
      key += fmt::format("{}'\"{}\" = ' || quote(\"{}\")", key.empty() ? "" : " || ' AND ' || ",
                         name, name);
    }
    const auto rows = logbook_.texts(fmt::format("SELECT {} FROM {}", key, table));
    return {table, column, rows[random_() % rows.size()]};
  }

  // With one byte, or one bit of a number, other than it was; false where the table itself does
  // not take it, or it is the same number.
  bool change(const Cell& cell) {
    auto& database = *logbook_.database;
    SQLite::Statement held(database, fmt::format("SELECT \"{}\" FROM {} WHERE {}", cell.column,
                                                 cell.table, cell.where));
    REQUIRE(held.executeStep());
    const auto value = held.getColumn(0);
    SQLite::Statement update(database, fmt::format("UPDATE {} SET \"{}\" = ? WHERE {}", cell.table,
                                                   cell.column, cell.where));
    if (value.isNull()) {
      const auto type = logbook_.texts(fmt::format(
          "SELECT type FROM pragma_table_info('{}') WHERE name = '{}'", cell.table, cell.column));
      if (type.at(0) == "TEXT") {
        update.bind(1, "");
      } else {
        update.bind(1, 0);
      }
    } else if (value.isInteger()) {
      update.bind(1, value.getInt64() ^ static_cast<std::int64_t>(1ULL << (random_() % 64)));
    } else if (value.isFloat()) {
      const auto bits =
          std::bit_cast<std::uint64_t>(value.getDouble()) ^ (1ULL << (random_() % 64));
      const auto other = std::bit_cast<double>(bits);
      if (std::isnan(other) || other == value.getDouble()) return false;
      update.bind(1, other);
    } else {
      auto bytes = value.getString();
      if (bytes.empty()) {
        bytes = static_cast<char>(1 + random_() % 255);
      } else {
        auto& byte = bytes[random_() % bytes.size()];
        byte = static_cast<char>(byte ^ static_cast<char>(1 + random_() % 255));
      }
      if (value.isBlob()) {
        update.bind(1, bytes.data(), static_cast<int>(bytes.size()));
      } else {
        update.bind(1, bytes);
      }
    }
    held.reset();
    try {
      return update.exec() == 1;
    } catch (const SQLite::Exception&) {
      return false;  // another row has that key
    }
  }

  // The line whose rows these are; nothing where they belong to none.
  std::optional<std::int64_t> line_of(const Cell& cell) {
    if (cell.table != "entry" && cell.column == "entry_id") return std::nullopt;
    const auto has_entry = logbook_.texts(fmt::format(
        "SELECT name FROM pragma_table_info('{}') WHERE name = 'entry_id'", cell.table));
    if (has_entry.empty()) return std::nullopt;
    const auto lines = logbook_.texts(
        fmt::format("SELECT line FROM entry WHERE id = (SELECT entry_id FROM {} WHERE {})",
                    cell.table, cell.where));
    return lines.empty() ? std::nullopt : std::optional(std::stoll(lines.front()));
  }

  std::mt19937& random() { return random_; }

 private:
  const Unguarded& logbook_;
  std::mt19937 random_{20260602};
};

// Whether anything but the triggers, which were taken away here, is found to be wrong.
bool is_noticed(const record::Verification& found) {
  const bool all_signatures_fit =
      std::ranges::all_of(found.signatures, &record::SignatureCheck::fits);
  return !found.kinds.empty() || !found.unsound.empty() || !found.orphans.empty() ||
         !found.photographs.empty() || !all_signatures_fit || !found.chain ||
         !found.chain->misfits.empty();
}

}  // namespace

TEST_CASE("any byte of any column is noticed where it is changed, and the line is named",
          "[logbook][torture][slow]") {
  const Unguarded logbook;
  CHECK(logbook.empty_tables.empty());
  REQUIRE(!is_noticed(logbook::verify_open(*logbook.database, logbook::Look::AtHashes)));
  Tampering tampering(logbook);
  const auto wanted = trials(logbook.columns.size(), 60 * logbook.columns.size());
  std::size_t changed = 0;
  std::size_t named = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t i = 0; changed < wanted && i < 20 * wanted; ++i) {
    const auto& [table, column] = logbook.columns[i % logbook.columns.size()];
    if (logbook.empty_tables.contains(table)) continue;
    const SQLite::Transaction undone(*logbook.database);
    const auto cell = tampering.cell_of(table, column);
    const auto line = tampering.line_of(cell);
    if (!tampering.change(cell)) continue;
    ++changed;
    const auto found = logbook::verify_open(*logbook.database, logbook::Look::AtHashes);
    std::string wrong;
    if (!is_noticed(found)) wrong = "not noticed";
    if (line) {
      const bool is_named =
          found.chain && std::ranges::any_of(found.chain->misfits, [&](const auto& misfit) {
            return misfit.line == *line;
          });
      if (!is_named) wrong = fmt::format("line {} not named", *line);
      ++named;
    }
    if (!wrong.empty() && faults++ == 0) {
      first = fmt::format("{}.{} where {}: {}", table, column, cell.where, wrong);
    }
  }
  tell_torture("a byte of any column changed", changed,
               faults == 0 ? fmt::format("noticed, in {} the line named", named) : first, faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(changed == wanted);
}

}  // namespace tampering_test
