#include "logbook/schema.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <iterator>
#include <optional>

#include "logbook/hash_chain.h"
#include "logbook/logbook_error.h"
#include "logbook/rows/adapter_columns.h"
#include "record/logbook_copy.h"

namespace logbook {

int schema_version(SQLite::Database& database) {
  return database.execAndGet("PRAGMA user_version").getInt();
}

const std::vector<SchemaStep>& schema_steps() {
  static const std::vector<SchemaStep> steps = [] {
    constexpr int kAdapterMeasures = 8;
    auto completed = embedded_steps();
    for (auto& step : completed) {
      if (step.version == kAdapterMeasures) step.complete = measure_adapters;
      if (step.version == record::kFirstSchemaWithHashes) step.complete = chain_all_lines;
    }
    return completed;
  }();
  return steps;
}

std::vector<SchemaStep> steps_up_to(int version) {
  std::vector<SchemaStep> steps;
  std::ranges::copy_if(schema_steps(), std::back_inserter(steps),
                       [&](const SchemaStep& step) { return step.version <= version; });
  return steps;
}

void apply_steps(SQLite::Database& database, const std::vector<SchemaStep>& steps) {
  for (const auto& step : steps) {
    if (step.version <= schema_version(database)) continue;
    std::optional<SQLite::Transaction> own;
    if (sqlite3_get_autocommit(database.getHandle()) != 0) {
      own.emplace(database, SQLite::TransactionBehavior::IMMEDIATE);
    }
    database.exec(std::string(step.sql));
    if (step.complete != nullptr) step.complete(database);
    if (SQLite::Statement orphans(database, "PRAGMA foreign_key_check"); orphans.executeStep()) {
      throw LogbookError(LogbookError::Kind::Damaged,
                         fmt::format("schema step {} leaves rows in {} that point nowhere; the "
                                     "logbook was left as it was",
                                     step.version, orphans.getColumn(0).getString()));
    }
    database.exec(fmt::format("PRAGMA user_version = {}", step.version));
    if (own) own->commit();
  }
}

void make_tables(SQLite::Database& database, int version) {
  if (version < schema_steps().back().version) {
    return apply_steps(database, steps_up_to(version));
  }
  SQLite::Transaction whole(database, SQLite::TransactionBehavior::IMMEDIATE);
  database.exec(std::string(current_schema()));
  whole.commit();
}

}  // namespace logbook
