#include "logbook/foreign_schema.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <vector>

#include "logbook/logbook_error.h"
#include "logbook/schema.h"
#include "quantity/number_text.h"
#include "record/content.h"

namespace logbook {
namespace {

// What makes a table, index, trigger or view, by its type and name ("trigger entry_in_line").
using SchemaTexts = std::map<std::string, std::string, std::less<>>;

struct SchemaObject {
  std::string name;   // with its type
  std::string table;  // that it is of
  std::string sql;    // empty for an index that SQLite makes for a key by itself
};

std::vector<SchemaObject> objects_of(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT type || ' ' || name, tbl_name, coalesce(sql, '') FROM sqlite_schema)");
  std::vector<SchemaObject> objects;
  while (row.executeStep()) {
    objects.push_back(
        {row.getColumn(0).getString(), row.getColumn(1).getString(), row.getColumn(2).getString()});
  }
  return objects;
}

// "CREATE TRIGGER entry_in_line BEFORE ..." as "trigger entry_in_line".
std::string name_made_by(std::string_view sql) {
  constexpr std::string_view kTypes[] = {"TABLE", "INDEX", "TRIGGER", "VIEW"};
  constexpr std::string_view kLowerCase[] = {"table ", "index ", "trigger ", "view "};
  sql.remove_prefix(std::string_view("CREATE ").size());
  for (std::size_t i = 0; i < std::size(kTypes); ++i) {
    if (!sql.starts_with(kTypes[i])) continue;
    sql.remove_prefix(kTypes[i].size() + 1);
    return std::string(kLowerCase[i]).append(sql.substr(0, sql.find_first_of(" (")));
  }
  return {};
}

// SQLite keeps the text of what makes the schema word for word, so that today's stands in
// current.sql, one statement a paragraph; no table has to be made to know them.
SchemaTexts made_today() {
  SchemaTexts texts;
  for (auto rest = current_schema(); !rest.empty();) {
    auto paragraph = rest.substr(0, rest.find("\n\n"));
    rest.remove_prefix(std::min(rest.size(), paragraph.size() + 2));
    while (paragraph.ends_with('\n')) paragraph.remove_suffix(1);
    if (!paragraph.starts_with("CREATE ") || !paragraph.ends_with(';')) continue;
    paragraph.remove_suffix(1);
    texts.emplace(name_made_by(paragraph), paragraph);
  }
  return texts;
}

// What the steps up to an earlier version make.
SchemaTexts made_by_steps(int version) {
  SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  apply_steps(fresh, steps_up_to(version));
  SchemaTexts texts;
  for (auto& object : objects_of(fresh)) {
    if (!object.sql.empty()) texts.emplace(std::move(object.name), std::move(object.sql));
  }
  return texts;
}

// Once a run of the program for each version that it meets.
const SchemaTexts& ours_of(int version) {
  static thread_local std::map<int, SchemaTexts> known;
  const auto [at, is_new] = known.try_emplace(version);
  if (is_new) {
    at->second = version == schema_steps().back().version ? made_today() : made_by_steps(version);
  }
  return at->second;
}

// An index that SQLite makes for a key by itself; of which table, and so of what columns, the text
// of that table says, and SQLite refuses one that the text does not ask for.
bool is_made_by_sqlite(const SchemaObject& object) {
  return object.sql.empty() &&
         object.name.starts_with(fmt::format("index sqlite_autoindex_{}_", object.table));
}

bool is_statistics(const SchemaObject& object) {
  return (object.name == "table sqlite_stat1" &&
          object.sql == "CREATE TABLE sqlite_stat1(tbl,idx,stat)") ||
         (object.name == "table sqlite_stat4" &&
          object.sql == "CREATE TABLE sqlite_stat4(tbl,idx,neq,nlt,ndlt,sample)");
}

[[noreturn]] void refuse(const std::string& path, const std::string& what) {
  throw LogbookError(LogbookError::Kind::Damaged, fmt::format("{}: {}", path, what));
}

bool has_every_kind(SQLite::Database& database) {
  SQLite::Statement row(database, "SELECT 1 FROM entry_kind WHERE kind = ?");
  bool every = true;
  record::Kinds::for_each([&]<class Kind>() {
    row.reset();
    row.bind(1, std::string(record::Kinds::word_of<Kind>()));
    every = every && row.executeStep();
  });
  return every;
}

// The first of ours that is not there; empty where all are. Nothing is read from an index or
// trigger that is missing.
std::string missing_among(const std::vector<SchemaObject>& there, const SchemaTexts& ours,
                          bool for_reading) {
  std::set<std::string_view> names;
  for (const auto& object : there) names.insert(object.name);
  for (const auto& [name, text] : ours) {
    if (for_reading && (name.starts_with("index ") || name.starts_with("trigger "))) continue;
    if (!names.contains(name)) return name;
  }
  return {};
}

}  // namespace

void check_schema(SQLite::Database& database, const std::string& path) {
  const auto& ours = ours_of(schema_version(database));
  const auto there = objects_of(database);
  for (const auto& object : there) {
    if (is_made_by_sqlite(object) || is_statistics(object)) continue;
    const auto own = ours.find(object.name);
    if (own == ours.end()) {
      refuse(path, fmt::format("the {} in this file is none of boltwitness's own and was not run "
                               "or read; go back to a copy, or take it out with the sqlite3 shell "
                               "(what is your own goes into a file of your own)",
                               quantity::quoted(object.name)));
    }
    if (own->second != object.sql) {
      refuse(path, fmt::format("the {} in this file was altered and was not run or read; go back "
                               "to a copy",
                               quantity::quoted(object.name)));
    }
  }
  if (const auto missing = missing_among(there, ours, true); !missing.empty()) {
    refuse(path, fmt::format("the {} was taken out of this file; go back to a copy",
                             quantity::quoted(missing)));
  }
}

void check_whole_schema(SQLite::Database& database, const std::string& path) {
  const auto& ours = ours_of(schema_version(database));
  if (missing_among(objects_of(database), ours, false).empty() && has_every_kind(database)) return;
  refuse(path,
         "somebody changed the tables, triggers or kinds of lines of this logbook, so nothing was "
         "written to it; \"boltwitness verify\" names what it was; go back to a copy");
}

}  // namespace logbook
