#pragma once

#include <functional>
#include <string>
#include <vector>

#include "logbook/signing_key.h"
#include "record/moment.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// What a signature is made over: the hash of a line, and so all up to it, with who signed and when:
//
//   boltwitness signature 1
//   hash <the hash of the line>
//   by <who>
//   at <when, as write_utc writes it>
//
// each ended by a line feed.
[[nodiscard]] std::string signed_text(const std::string& hash, const std::string& by,
                                      const std::string& at);

struct Signed {
  std::int64_t line = 0;
  std::string hash;
};

// Signs the last line of the logbook with the key that is asked for once all else is in order.
// Refusal where the logbook does not fit as verify tells, or bears a signature of this key there
// already; LogbookError where nothing can be written.
[[nodiscard]] Signed sign_last_line(const std::string& path, const std::string& by,
                                    record::Moment now, const std::function<SigningKey()>& key_of);

// Every signature, by rising line, held against the hash that is stored of its line.
[[nodiscard]] std::vector<record::SignatureCheck> check_signatures(SQLite::Database& database);

}  // namespace logbook
