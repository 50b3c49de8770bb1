#pragma once

#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// The id of the first line, by which copies of one logbook know each other; empty in a file that
// lost it. Throws what the library throws.
[[nodiscard]] std::string first_id(SQLite::Database& database);

// What one logbook is to another.
enum class Containment {
  Other,      // of another first line
  Contained,  // the other has its ends, and so all of it
  Different,  // of the same first line, but with lines that the other has not
};

// What `part` is to `whole`, told by the hashes of its ends (hash_chain.h); where either is from
// before there were hashes, by the id of it. Throws what the library throws.
[[nodiscard]] Containment containment_of(SQLite::Database& part, SQLite::Database& whole);

}  // namespace logbook
