#include "logbook/verification.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <charconv>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include "logbook/chain_check.h"
#include "logbook/failed_checks.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/photograph_bytes.h"
#include "logbook/schema.h"
#include "logbook/signature.h"
#include "logbook/unreadable_lines.h"
#include "record/logbook_copy.h"

namespace logbook {
namespace {

using record::SchemaMisfit;

using TypeAndName = std::pair<std::string, std::string>;

// Statistics that SQLite keeps where somebody asked for them say nothing and run nowhere.
std::map<TypeAndName, std::string> every_object(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT type, name, tbl_name || ': ' || coalesce(sql, '') FROM sqlite_schema
      WHERE name NOT GLOB 'sqlite_stat[0-9]')");
  std::map<TypeAndName, std::string> objects;
  while (row.executeStep()) {
    objects.emplace(TypeAndName(row.getColumn(0).getString(), row.getColumn(1).getString()),
                    row.getColumn(2).getString());
  }
  return objects;
}

std::map<std::string, std::string> kinds_in(SQLite::Database& database) {
  SQLite::Statement row(database, "SELECT kind, meaning FROM entry_kind");
  std::map<std::string, std::string> kinds;
  while (row.executeStep()) {
    kinds.emplace(row.getColumn(0).getString(), row.getColumn(1).getString());
  }
  return kinds;
}

std::vector<SchemaMisfit> object_misfits(SQLite::Database& database, SQLite::Database& ours) {
  using How = SchemaMisfit::How;
  std::vector<SchemaMisfit> misfits;
  auto there = every_object(database);
  for (const auto& [what, text] : every_object(ours)) {
    const auto found = there.find(what);
    if (found == there.end()) {
      misfits.push_back({How::Missing, what.first, what.second});
      continue;
    }
    if (found->second != text) misfits.push_back({How::Altered, what.first, what.second});
    there.erase(found);
  }
  for (const auto& [what, text] : there) {
    misfits.push_back({How::Added, what.first, what.second});
  }
  return misfits;
}

// The words that are not in both with the same meaning.
std::vector<std::string> kind_misfits(SQLite::Database& database, SQLite::Database& ours) {
  const auto there = kinds_in(database);
  const auto expected = kinds_in(ours);
  std::set<std::string> misfits;
  const auto add_missing = [&](const auto& from, const auto& in) {
    for (const auto& [kind, meaning] : from) {
      const auto found = in.find(kind);
      if (found == in.end() || found->second != meaning) misfits.insert(kind);
    }
  };
  add_missing(expected, there);
  add_missing(there, expected);
  return {misfits.begin(), misfits.end()};
}

constexpr std::size_t kMostUnsound = 10;

// integrity_check goes on where a page could not be read and tells it as one finding among others:
// "Tree 5 page 12: unable to get the page. error code=266". That says nothing about the page.
void throw_if_unreadable(const std::string& says) {
  constexpr std::string_view kCode = "error code=";
  const auto at = says.find(kCode);
  if (at == std::string::npos) return;
  int code = 0;  // the more precise one, the plain one in its lower bits
  std::from_chars(says.data() + at + kCode.size(), says.data() + says.size(), code);
  const SQLite::Exception error(says, code & 0xFF);
  if (is_trouble_with_the_disk(error)) throw error;
}

std::vector<std::string> unsound_in(SQLite::Database& database) {
  SQLite::Statement row(database, "PRAGMA integrity_check(10)");
  std::vector<std::string> unsound;
  while (row.executeStep() && unsound.size() < kMostUnsound) {
    auto says = row.getColumn(0).getString();
    throw_if_unreadable(says);
    if (says != "ok") unsound.push_back(std::move(says));
  }
  std::ranges::move(failed_checks(database, kMostUnsound - unsound.size()),
                    std::back_inserter(unsound));
  return unsound;
}

std::vector<std::string> orphans_in(SQLite::Database& database) {
  SQLite::Statement row(database, "PRAGMA foreign_key_check");
  std::vector<std::string> tables;
  while (row.executeStep()) {
    auto table = row.getColumn(0).getString();
    if (std::ranges::find(tables, table) == tables.end()) tables.push_back(std::move(table));
  }
  return tables;
}

// Where a table is not ours, what would be read out of it is not what was written into it.
bool tables_are_ours(const std::vector<SchemaMisfit>& misfits) {
  return std::ranges::none_of(misfits, [](const auto& misfit) {
    return misfit.type == "table" && misfit.how != SchemaMisfit::How::Added;
  });
}

// Of an earlier version, whose steps take a file that is whole, only where nothing else is wrong.
std::vector<record::UnreadableLine> unreadable_in(SQLite::Database& database,
                                                  const record::Verification& found,
                                                  const std::function<void()>& line_read) {
  if (found.schema == schema_steps().back().version) return unreadable_lines(database, line_read);
  if (!found.is_as_written()) return {};
  return unreadable_lines(*brought_up_to_date(database), line_read);
}

// Nothing where it cannot be told, which is found out and named later.
std::optional<std::size_t> number_of_lines(SQLite::Database& database) {
  try {
    const auto lines = database.execAndGet("SELECT count(*) FROM entry").getInt64();
    return lines > 0 ? std::optional(static_cast<std::size_t>(lines)) : std::nullopt;
  } catch (const SQLite::Exception&) {
    return std::nullopt;
  }
}

}  // namespace

record::Verification verify_open(SQLite::Database& database, Look look,
                                 const std::vector<std::string>& sought,
                                 const std::function<void()>& line_checked) {
  record::Verification found;
  found.schema = schema_version(database);
  SQLite::Database ours(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  make_tables(ours, found.schema);
  found.objects = object_misfits(database, ours);
  if (!tables_are_ours(found.objects)) return found;
  try {
    found.unsound = unsound_in(database);
    found.kinds = kind_misfits(database, ours);
    found.orphans = orphans_in(database);
    if (found.schema >= record::kFirstSchemaWithHashes) {
      found.chain = check_chain(database, sought, line_checked);
    }
    if (found.schema >= record::kFirstSchemaWithSignatures) {
      found.signatures = check_signatures(database);
    }
    if (found.schema >= record::kFirstSchemaWithPhotographs) {
      found.photographs_kept = static_cast<std::int64_t>(kept_photographs(database).size());
      found.photographs = check_photographs(database);
    }
    if (look == Look::AtLinesToo) found.unreadable = unreadable_in(database, found, line_checked);
  } catch (const SQLite::Exception& error) {
    // A disk that could not be read says nothing about what stands on it.
    if (is_trouble_with_the_disk(error)) throw;
    if (found.unsound.empty()) found.unsound.emplace_back(error.what());
  }
  return found;
}

record::Verification verify(const std::string& path, const std::vector<std::string>& sought,
                            Waiting& waiting, const LinesProgress& progress, Look look) {
  try {
    const auto open = open_to_verify(path, waiting);
    const SQLite::Transaction moment(*open.database);
    if (progress.begin) {
      const bool has_hashes = schema_version(*open.database) >= record::kFirstSchemaWithHashes;
      const std::size_t steps =
          static_cast<std::size_t>(has_hashes) + static_cast<std::size_t>(look == Look::AtLinesToo);
      if (const auto lines = number_of_lines(*open.database)) progress.begin(steps * *lines);
    }
    return verify_open(*open.database, look, sought, progress.step);
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

}  // namespace logbook
