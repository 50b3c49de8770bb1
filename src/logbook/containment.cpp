#include "logbook/containment.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <string>

#include "logbook/hash_chain.h"
#include "logbook/schema.h"
#include "record/logbook_copy.h"

namespace logbook {
std::string first_id(SQLite::Database& database) {
  return database.execAndGet("SELECT coalesce((SELECT id FROM entry WHERE line = 1), '')")
      .getString();
}

Containment containment_of(SQLite::Database& part, SQLite::Database& whole) {
  if (first_id(part) != first_id(whole)) return Containment::Other;
  const bool hashed =
      std::min(schema_version(part), schema_version(whole)) >= record::kFirstSchemaWithHashes;
  SQLite::Statement there(whole, hashed ? "SELECT 1 FROM line_hash WHERE hash = ?"
                                        : "SELECT 1 FROM entry WHERE id = ?");
  const auto ends = hashed ? end_hashes(part)
                           : std::vector{part.execAndGet("SELECT max(id) FROM entry").getString()};
  const bool has_all = std::ranges::all_of(ends, [&](const std::string& end) {
    there.reset();
    there.bind(1, end);
    return there.executeStep();
  });
  return has_all ? Containment::Contained : Containment::Different;
}

}  // namespace logbook
