#include "logbook/foreign_schema.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <map>

#include "logbook/logbook_error.h"
#include "logbook/schema.h"
#include "quantity/number_text.h"
#include "record/content.h"

namespace logbook {
namespace {

using TextByName = std::map<std::string, std::string>;

TextByName triggers_and_views(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT type || ' ' || name, coalesce(sql, '') FROM sqlite_schema
      WHERE type NOT IN ('table', 'index'))");
  TextByName texts;
  while (row.executeStep()) {
    texts.emplace(row.getColumn(0).getString(), row.getColumn(1).getString());
  }
  return texts;
}

// What the steps up to an earlier version make; once a run of the program for each that it meets.
const TextByName& made_by_steps(int version) {
  static thread_local std::map<int, TextByName> known;
  const auto [at, is_new] = known.try_emplace(version);
  if (is_new) {
    SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    apply_steps(fresh, steps_up_to(version));
    at->second = triggers_and_views(fresh);
  }
  return at->second;
}

// SQLite keeps the text of what makes the schema word for word, so that today's stands in
// current.sql as whole statements; no table has to be made to know them.
bool is_of_today(const std::string& text) {
  return current_schema().find("\n" + text + ";\n") != std::string_view::npos;
}

bool is_ours(const std::string& name, const std::string& text, int version) {
  if (version == schema_steps().back().version) return is_of_today(text);
  const auto& ours = made_by_steps(version);
  const auto known = ours.find(name);
  return known != ours.end() && known->second == text;
}

int count_of_today() {
  int count = 0;
  constexpr std::string_view kCreate = "\nCREATE ";
  for (auto at = current_schema().find(kCreate); at != std::string_view::npos;
       at = current_schema().find(kCreate, at + 1)) {
    ++count;
  }
  return count;
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

}  // namespace

void check_triggers_and_views(SQLite::Database& database, const std::string& path) {
  const int version = schema_version(database);
  for (const auto& [name, text] : triggers_and_views(database)) {
    if (is_ours(name, text, version)) continue;
    throw LogbookError(
        LogbookError::Kind::Damaged,
        fmt::format("{}: the {} in this file is none of boltwitness's own and was not run; go back "
                    "to a copy, or take it out with the sqlite3 shell",
                    path, quantity::quoted(name)));
  }
}

void check_whole_schema(SQLite::Database& database, const std::string& path) {
  int ours = 0;
  {
    SQLite::Statement row(database, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL");
    while (row.executeStep()) ours += is_of_today(row.getColumn(0).getString()) ? 1 : 0;
  }
  if (ours == count_of_today() && has_every_kind(database)) return;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("{}: somebody changed the tables, triggers or kinds of lines of this logbook, so "
                  "nothing was written to it; \"boltwitness verify\" names what it was; go back to "
                  "a copy",
                  path));
}

}  // namespace logbook
